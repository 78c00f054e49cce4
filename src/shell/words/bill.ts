import { type Bill, paymentQr } from "../../core/bill/index.ts";
import { type Minor, moneyText, type Party, percentText } from "../../core/money/index.ts";
import { width, wrap } from "./wrap.ts";

/** A bill on the terminal: who to whom, its lines, the tax by groups, what is to be paid and how. */
export function billInWords(bill: Bill): string[] {
  const { kind, number, date, due, of, seller, buyer, occupant, totals, withTax } = bill;
  const amount = (minor: Minor): string => moneyText({ minor, currency: bill.currency });
  const row = (says: string, minor: Minor): string[] => {
    const figure = amount(minor);
    const [last = "", ...before] = wrap(says, width - figure.length - 2).reverse();
    return [...before.reverse(), `${last.padEnd(width - figure.length)}${figure}`];
  };
  const title = { quote: "Quote", invoice: "Invoice", "credit note": "Credit note" }[kind];
  return [
    `${title} ${number} · ${date}`,
    ...(of === undefined ? [] : [`takes back invoice ${of.number} of ${of.date}: ${of.why}`]),
    `from ${partyInBrief(seller)}`,
    `to   ${partyInBrief(buyer)}`,
    ...(occupant === undefined ? [] : [`for  ${partyInBrief(occupant)}`]),
    ...wrap(`Job ${bill.job}, ${bill.subject}`, width),
    "",
    ...bill.lines.flatMap((line) =>
      row(line.unit === "MIN" ? `${line.says} (${line.quantity} minutes)` : quantityAnd(line), line.told),
    ),
    `(amounts ${withTax ? "with" : "without"} tax)`,
    "",
    ...totals.groups.flatMap(({ vat, taxable, tax }) => row(`tax of ${percentText(vat)} % on ${amount(taxable)}`, tax)),
    ...totals.groups.flatMap(({ vat }) => (vat.reason === undefined ? [] : [`no tax: ${vat.reason}`])),
    ...row("without tax", totals.net),
    ...row("with tax", totals.gross),
    ...(totals.paid === 0 ? [] : row("paid already", -totals.paid)),
    ...(totals.rounded === 0 ? [] : row("rounding", totals.rounded)),
    ...row(kind === "credit note" ? "to be paid back" : totals.due < 0 ? "to be paid back" : "to be paid", totals.due),
    "",
    ...dueInWords(bill),
    ...wrap(
      `Tax is worked out on each rate's sum and rounded once, ${bill.rounding === "half up" ? "half a unit away from zero" : "half a unit to the even neighbour"}.`,
      width,
    ),
    ...(kind === "quote" ? [`Holds until ${due}.`] : []),
  ];
}

function quantityAnd({ says, quantity }: Bill["lines"][number]): string {
  return quantity === 1 ? says : `${quantity} × ${says}`;
}

function dueInWords(bill: Bill): string[] {
  if (bill.kind !== "invoice" || bill.totals.due <= 0) return [];
  const { bank, reference, number } = bill;
  const account =
    bank === undefined ? "" : ` to ${bank.holder}, ${bank.account}${bank.bic === undefined ? "" : `, ${bank.bic}`}`;
  const code = paymentQr(bill) === undefined ? "" : " A payment code stands in --json.";
  return wrap(`To be paid by ${bill.due}${account}, reference ${reference ?? number}.${code}`, width);
}

function partyInBrief({ name, lines, postcode, town, vatId }: Party): string {
  const place = [postcode, town].filter((piece) => piece !== undefined).join(" ");
  const tax = vatId === undefined ? [] : [`VAT ${vatId}`];
  return [name, ...lines, ...(place === "" ? [] : [place]), ...tax].join(", ");
}
