import type { Bill } from "../bill/index.ts";
import { dayText } from "../day/index.ts";
import type { Party } from "../money/index.ts";
import { money, moneyText } from "../money/index.ts";
import type { Paper } from "./paper.ts";
import { capital, type PaperFacts, paperToCustomer, thingSays } from "./paper-facts.ts";

/** So that nobody takes a field for the official one: its text was not read. */
const MARK = " (to be verified)";

/**
 * The European repair information form, as far as its fields are known.
 *
 * @param quote  the price and how long it holds; without one the price stands open
 * @source Directive (EU) 2024/1799, Article 4 and Annex I: fields from memory, the official text was not read
 */
export function repairFormOf(facts: PaperFacts, quote: Bill | undefined): Paper {
  const { worked, account } = facts;
  const { letterhead, trading } = worked.shop;
  const days = trading?.orderDays;
  const suspect = worked.belief.parts[0];
  const mended = worked.state.repairs.at(-1);
  const offered = account.offered.find(({ choice }) => choice === account.accepted?.choice) ?? account.offered.at(-1);
  const defect = mended === undefined ? suspect?.says : thingSays(facts, mended.on);
  const repair = offered?.says ?? mended?.remedy;
  const rows: readonly (readonly [string, string | undefined])[] = [
    ["Repairer", letterhead?.party.name],
    ["Address", letterhead === undefined ? undefined : addressText(letterhead.party)],
    ["Telephone", letterhead?.party.phone],
    ["E-mail", letterhead?.party.email],
    ["Goods to be repaired", worked.sheet.title],
    ["Defect", defect === undefined ? undefined : `${capital(defect)}; you told us: “${worked.job.complaint}”`],
    ["Repair that is suggested", repair === undefined ? undefined : capital(repair)],
    ["Price, or the most that it can come to", quote === undefined ? undefined : priceText(quote)],
    ["Time needed", days === undefined ? undefined : `${days.lo} to ${days.hi} working days where a part is ordered`],
    ["Machine lent in the meantime", undefined],
    ["Where the machine is handed over", account.customer === undefined ? undefined : addressText(account.customer)],
    ["Further services (taking away, bringing back) and their price", undefined],
    ["The form holds until", quote === undefined ? undefined : dayText(quote.due)],
    ["Further information", undefined],
  ];
  return paperToCustomer("repair form", "European repair information form", facts, [
    {
      is: "paragraph",
      text: "What the repair would be, what it would cost and how long that holds. You may compare it with others before you decide.",
      isStrong: true,
    },
    {
      is: "note",
      text: "Draft. The fields are written down from memory of Directive (EU) 2024/1799, Annex I; the official form was not read. Hold it against the official text before you hand it out.",
    },
    { is: "facts", rows: rows.map(([label, value]) => [`${label}${MARK}`, value ?? "not filled in"]) },
    { is: "signatures", lines: ["Repairer, date", "Accepted by the customer, date"] },
  ]);
}

function addressText({ lines, postcode, town }: Party): string {
  const place = [postcode, town].filter((word) => word !== undefined).join(" ");
  return [...lines, place].filter((line) => line !== "").join(", ");
}

function priceText({ totals, currency, withTax }: Bill): string {
  return `${moneyText(money(totals.due, currency))}, tax included${withTax ? "" : " (prices agreed without tax)"}`;
}
