import { addMonths, dayText } from "../day/index.ts";
import type { Paper } from "./paper.ts";
import { capital, machineFacts, type PaperFacts, paperToCustomer, thingSays } from "./paper-facts.ts";

/** The guarantee on a repair; `undefined` where nothing was mended, the job may not be closed yet, or the shop names no months. */
export function guaranteeOf(facts: PaperFacts): Paper | undefined {
  const { worked, date, out } = facts;
  const months = worked.shop.trading?.guaranteeMonths;
  const repairs = worked.state.repairs.filter((repair) => repair.worked !== false);
  if (months === undefined || repairs.length === 0 || !out.gate.isOpen) return undefined;
  const rows = repairs.map(({ remedy, on }) => {
    const lasts = /\bused\b/.test(remedy) ? months.used : months.new;
    return [`${capital(thingSays(facts, on))}: ${remedy}`, `${lasts} months`, dayText(addMonths(date, lasts))];
  });
  return paperToCustomer("guarantee", "Guarantee", facts, [
    {
      is: "paragraph",
      text: "If the same fault comes back, we mend it again for nothing: no charge for coming, for work or for the part.",
      isStrong: true,
    },
    machineFacts(facts),
    { is: "heading", text: "What is covered" },
    {
      is: "table",
      head: [{ says: "What was done" }, { says: "For", isFigures: true }, { says: "Until", isFigures: true }],
      rows,
    },
    { is: "heading", text: "What is not" },
    {
      is: "list",
      items: [
        "Another fault in another part",
        "Damage from outside, water or a fall",
        "What somebody else did to the machine since",
      ],
    },
    { is: "heading", text: "What to do" },
    {
      is: "paragraph",
      text: `Pull the plug and call us. Please name job ${worked.job.id}. Keep this paper with the machine.`,
    },
    { is: "note", text: "Your rights by law stay as they are, and come on top of this." },
  ]);
}
