import { type Account, accountOf, type CloseOut, type Closing, type WorkedJob } from "../ledger/index.ts";
import type { SafetyRules } from "../safety/index.ts";
import type { Block, Paper, PaperKind, Sender } from "./paper.ts";

/** All that a paper may be made from: a job as its events tell it, and how it stands at the door. */
export interface PaperFacts {
  readonly worked: WorkedJob;
  readonly closing: Closing;
  readonly out: CloseOut;
  readonly rules?: SafetyRules;
  readonly account: Account;
  /** Of this paper, where it has one. */
  readonly number?: string;
  /** ISO 8601 */
  readonly date: string;
}

export function paperFacts(
  worked: WorkedJob,
  found: { readonly closing: Closing; readonly out: CloseOut; readonly rules?: SafetyRules },
  numbered: { readonly number?: string; readonly date: string },
): PaperFacts {
  return { worked, ...found, account: accountOf(worked.job), ...numbered };
}

/** A paper about the customer's machine, to whoever has it. */
export function paperToCustomer(kind: PaperKind, title: string, facts: PaperFacts, blocks: readonly Block[]): Paper {
  const { number, date, account } = facts;
  const from = senderOf(facts);
  return {
    kind,
    title,
    ...(number === undefined ? {} : { number }),
    date,
    ...(from === undefined ? {} : { from }),
    ...(account.customer === undefined ? {} : { to: account.customer }),
    blocks,
  };
}

export function senderOf({ worked }: PaperFacts): Sender | undefined {
  return worked.shop.letterhead;
}

/** What machine it is about, and of which job. */
export function machineFacts(facts: PaperFacts): Block {
  const { job, sheet } = facts.worked;
  const { ageYears, plate } = job.machine;
  const ratings = [...plate].map(([rating, { text }]) => `${thingSays(facts, rating.split(".")[0] ?? rating)} ${text}`);
  return {
    is: "facts",
    rows: [
      ["Machine", ageYears === undefined ? sheet.title : `${sheet.title}, ${yearsText(ageYears)} old`],
      ...(ratings.length === 0 ? [] : [["From its plate", ratings.join(", ")] as const]),
      ["Job", job.id],
      ...(job.returnOf === undefined ? [] : [["Comes back from", job.returnOf] as const]),
      ...(job.complaint === "" ? [] : [["You told us", `“${job.complaint}”`] as const]),
    ],
  };
}

function yearsText(years: number): string {
  return years === 1 ? "1 year" : `${years} years`;
}

/** What a part or cause is called; its id where the sheet has no such thing. */
export function thingSays({ worked }: PaperFacts, id: string): string {
  const things = worked.case.candidates.flatMap(({ machine }) => [
    ...machine.parts,
    ...machine.assemblies,
    ...machine.causes,
  ]);
  return things.find((one) => one.id === id)?.says ?? id;
}

/** "Fit a new heater" of "fit a new heater". */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
