import { type Bill, billText, keptBill } from "../bill/index.ts";
import { accept, type Checked, refuse } from "../issue/index.ts";
import type { IssuedPaper } from "../ledger/index.ts";
import { decimalText, money } from "../money/index.ts";
import { billPaper } from "./bill-paper.ts";
import { PAPER_KINDS, type Paper, paperText } from "./paper.ts";

/** A paper ready to be handed over: what is drawn, and the text that is kept. */
export interface MadePaper {
  readonly paper: Paper;
  /** Of a bill the bill, of any other paper the paper itself: the ledger keeps it with its SHA-256. */
  readonly content: string;
  /** To be paid, in the currency; of a bill alone. */
  readonly total?: number;
}

export function madeOfBill(bill: Bill): MadePaper {
  const { totals, currency } = bill;
  const sign = bill.kind === "credit note" ? -1 : 1;
  const total =
    bill.kind === "quote" ? {} : { total: sign * Number(decimalText(money(totals.due + totals.paid, currency))) };
  return { paper: billPaper(bill), content: billText(bill), ...total };
}

export function madeOfPaper(paper: Paper): MadePaper {
  return { paper, content: paperText(paper) };
}

/**
 * What the ledger keeps of a paper that is handed over. One without a number of a series is named by its job and kind.
 *
 * @param hashOf  SHA-256 of a text, hexadecimal; the core has none of its own
 */
export function issuedPaper(
  { job }: { readonly job: { readonly id: string } },
  { paper, content, total }: MadePaper,
  hashOf: (text: string) => string,
): IssuedPaper {
  const { kind, date, of } = paper;
  return {
    paper: kind,
    number: paper.number ?? `${job.id}-${kind.replaceAll(" ", "-")}`,
    date,
    ...(of === undefined ? {} : { of }),
    ...(total === undefined ? {} : { total }),
    hash: hashOf(content),
    content,
  };
}

/**
 * A paper as it was handed over, whatever the ledger has learned since.
 *
 * @param hashOf  SHA-256 of a text, hexadecimal; the core has none of its own
 */
export function keptPaper(issued: IssuedPaper, hashOf: (text: string) => string): Checked<Paper> {
  const { content, hash, paper: kind, number } = issued;
  if (content === undefined)
    return refuse(changed(`${kind} ${number} without its content`, "the content it was issued with"));
  if (hash !== undefined && hashOf(content) !== hash)
    return refuse(changed(`${kind} ${number} whose content was changed`, `content with the hash ${hash}`));
  if (kind === "quote" || kind === "invoice" || kind === "credit note") {
    const bill = keptBill(content);
    return bill.ok ? accept(billPaper(bill.value)) : bill;
  }
  try {
    const paper = JSON.parse(content) as Paper;
    if (PAPER_KINDS.includes(paper.kind) && Array.isArray(paper.blocks)) return accept(paper);
  } catch {
    return refuse(changed("no JSON", "a paper as this program wrote it"));
  }
  return refuse(changed("something else", "a paper as this program wrote it"));
}

function changed(found: string, expected: string) {
  return { code: "paper.content", severity: "error", at: [], found, expected } as const;
}
