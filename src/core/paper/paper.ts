import type { Bank, Party } from "../money/index.ts";

/** Papers that a job can give, as they are asked for. */
export const PAPER_KINDS = [
  "quote",
  "report",
  "safety",
  "invoice",
  "credit note",
  "guarantee",
  "notice",
  "claim",
  "tag",
  "repair form",
] as const;
export type PaperKind = (typeof PAPER_KINDS)[number];

/** One paper, before anything is drawn: the same for text, for e-mail and for print. */
export interface Paper {
  readonly kind: PaperKind;
  readonly title: string;
  readonly number?: string;
  /** Number of the paper that it takes back. */
  readonly of?: string;
  /** ISO 8601 */
  readonly date: string;
  readonly from?: Sender;
  readonly to?: Party;
  readonly blocks: readonly Block[];
}

/** Whose letterhead it bears. */
export interface Sender {
  readonly party: Party;
  readonly bank?: Bank;
  readonly registration?: string;
}

/** A piece of a paper. */
export type Block =
  | { readonly is: "heading"; readonly text: string }
  | { readonly is: "paragraph"; readonly text: string; readonly isStrong?: boolean }
  | { readonly is: "facts"; readonly rows: readonly (readonly [label: string, value: string])[] }
  | { readonly is: "list"; readonly items: readonly string[] }
  | ({ readonly is: "table" } & Table)
  /** One line a person who signs; `drawn`: the last of them signed on the glass, by the hash of the drawing. */
  | { readonly is: "signatures"; readonly lines: readonly string[]; readonly drawn?: string }
  | { readonly is: "code"; readonly payload: string; readonly says: string }
  /** Smaller: whose rules, what a figure rests on. */
  | { readonly is: "note"; readonly text: string };

export interface Table {
  readonly head: readonly Column[];
  readonly rows: readonly (readonly string[])[];
  /** So many rows at the end are sums. */
  readonly sums?: number;
}

export interface Column {
  readonly says: string;
  /** Figures stand at the right. */
  readonly isFigures?: boolean;
}

/** Signatures that were drawn on the glass, by the hashes of their drawings. */
export function drawnIn({ blocks }: Paper): readonly string[] {
  return blocks.flatMap((block) => (block.is === "signatures" && block.drawn !== undefined ? [block.drawn] : []));
}

/** A paper as the text that the ledger keeps and whose hash is taken: the same paper, the same text. */
export function paperText(paper: Paper): string {
  return JSON.stringify(paper);
}
