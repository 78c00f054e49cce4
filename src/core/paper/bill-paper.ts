import { type Bill, type BillLine, paymentQr } from "../bill/index.ts";
import { dayText } from "../day/index.ts";
import { money, moneyText, percentText } from "../money/index.ts";
import type { Block, Paper } from "./paper.ts";
import { capital } from "./paper-facts.ts";

const TITLES = { quote: "Quote", invoice: "Invoice", "credit note": "Credit note" } as const;

/** A quote, an invoice or a credit note as a paper: what it is for first, then the lines, the tax, what is to be paid and how. */
export function billPaper(bill: Bill): Paper {
  const { kind, number, date, seller, bank, registration, buyer } = bill;
  return {
    kind,
    title: TITLES[kind],
    number,
    ...(bill.of === undefined ? {} : { of: bill.of.number }),
    date,
    from: {
      party: seller,
      ...(bank === undefined ? {} : { bank }),
      ...(registration === undefined ? {} : { registration }),
    },
    to: buyer,
    blocks: [
      { is: "paragraph", text: inShort(bill), isStrong: true },
      headFacts(bill),
      linesTable(bill),
      sumsTable(bill),
      ...taxNotes(bill),
      ...payment(bill),
    ],
  };
}

function inShort(bill: Bill): string {
  const due = amountText(bill, Math.abs(bill.totals.due));
  switch (bill.kind) {
    case "quote":
      return `We would do this for ${due}. The price holds until ${dayText(bill.due)}.`;
    case "invoice":
      return bill.totals.due > 0
        ? `Please pay ${due} by ${dayText(bill.due)}.`
        : bill.totals.due === 0
          ? "Everything is paid. Thank you."
          : `You have paid ${due} too much; we pay it back.`;
    case "credit note":
      return `We take back ${due} of invoice ${bill.of?.number ?? ""}.`;
  }
}

function headFacts({ kind, job, subject, occupant, of, reference, due }: Bill): Block {
  return {
    is: "facts",
    rows: [
      ["For", subject],
      ["Job", job],
      ...(occupant === undefined
        ? []
        : [
            [
              "Machine stands at",
              [occupant.name, ...occupant.lines, townText(occupant)].filter(Boolean).join(", "),
            ] as const,
          ]),
      ...(of === undefined
        ? []
        : [["Of invoice", `${of.number}, ${dayText(of.date)}`] as const, ["Why", of.why] as const]),
      ...(kind === "invoice" ? [["To be paid by", dayText(due)] as const] : []),
      ...(reference === undefined || kind !== "invoice" ? [] : [["Payment reference", reference] as const]),
    ],
  };
}

function townText({ postcode, town }: NonNullable<Bill["occupant"]>): string {
  return [postcode, town].filter((word) => word !== undefined).join(" ");
}

function linesTable(bill: Bill): Block {
  return {
    is: "table",
    head: [
      { says: "What" },
      { says: "How much", isFigures: true },
      { says: "Tax", isFigures: true },
      { says: bill.withTax ? "Price with tax" : "Price without tax", isFigures: true },
    ],
    rows: bill.lines.map((line) => [
      capital(line.says),
      quantityText(line),
      `${percentText(line.vat)} %`,
      amountText(bill, bill.withTax ? line.told : line.net),
    ]),
  };
}

function quantityText({ quantity, unit }: BillLine): string {
  return unit === "MIN" ? `${quantity} min` : String(quantity);
}

/** Sums from the lines to what is to be paid; each stands in the bill as data and is not added up here. */
function sumsTable(bill: Bill): Block {
  const { totals, kind } = bill;
  const row = (says: string, minor: number): readonly string[] => [says, amountText(bill, minor)];
  const rows = [
    row("Without tax", totals.net),
    ...totals.groups
      .filter(({ vat }) => vat.category === "S")
      .map(({ vat, taxable, tax }) => row(`Tax ${percentText(vat)} % on ${amountText(bill, taxable)}`, tax)),
    row("With tax", totals.gross),
    ...(totals.rounded === 0 ? [] : [row("Rounding", totals.rounded)]),
    ...(totals.paid === 0 ? [] : [row("Paid already", -totals.paid)]),
    row(kind === "credit note" ? "To be paid back" : kind === "quote" ? "Price" : "To be paid", totals.due),
  ];
  return { is: "table", head: [{ says: "Sum" }, { says: "Amount", isFigures: true }], rows, sums: 1 };
}

function taxNotes(bill: Bill): Block[] {
  const { totals, rounding, step, difference } = bill;
  const reasons = totals.groups.flatMap(({ vat }) => vat.reason ?? []);
  const howRounded = `Tax is worked out for each rate on its sum and rounded ${rounding}${step > 1 ? `; what is to be paid is rounded to ${amountText(bill, step)}` : ""}.`;
  const agreed =
    difference === 0 ? "" : " The prices were agreed with tax; the rounding makes them come to exactly that.";
  return [...reasons.map((text): Block => ({ is: "note", text })), { is: "note", text: `${howRounded}${agreed}` }];
}

function payment(bill: Bill): Block[] {
  if (bill.kind === "quote")
    return [
      { is: "paragraph", text: "Nothing is done before you accept. If something else turns up, we ask first." },
      { is: "signatures", lines: ["Accepted, date"] },
    ];
  if (bill.kind !== "invoice" || bill.totals.due <= 0) return [];
  const { bank, reference, number } = bill;
  const payload = paymentQr(bill);
  if (bank === undefined) return [];
  return [
    { is: "heading", text: "How to pay" },
    {
      is: "facts",
      rows: [
        ["Account holder", bank.holder],
        ["Account", groupsOfFour(bank.account)],
        ...(bank.bic === undefined ? [] : [["Bank code", bank.bic] as const]),
        ["Reference", reference ?? number],
      ],
    },
    ...(payload === undefined
      ? []
      : [{ is: "code", payload, says: "Your bank's app reads this code and fills the transfer in." } as const]),
  ];
}

function groupsOfFour(account: string): string {
  return account.replace(/(.{4})(?=.)/g, "$1 ");
}

function amountText({ currency }: Bill, minor: number): string {
  return moneyText(money(minor, currency));
}
