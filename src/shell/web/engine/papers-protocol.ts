import type { Bill } from "../../../core/bill/index.ts";
import type { IssuedPaper, LedgerEvent } from "../../../core/ledger/index.ts";
import type { Currency } from "../../../core/money/index.ts";
import type { Credit, JobPaperKind, Paper, PaperOffer } from "../../../core/paper/index.ts";
import type { OrderLine, ShelfItem, Taken } from "../../../core/shelf/index.ts";

/** A job as papers are asked of it. */
interface OfJob {
  /** The job file. */
  readonly text: string;
  /** Today, ISO 8601. */
  readonly date: string;
  /** A job of the demonstration has the demonstration's letterhead, no other job has. */
  readonly demo: boolean;
}

/** What the engine is asked about papers and money. */
export type AskPapers =
  /** Whose job it is: answered without working it out. */
  | ({ readonly do: "job shop" } & Omit<OfJob, "date">)
  | ({ readonly do: "papers" } & OfJob)
  | ({
      readonly do: "paper";
      readonly kind: JobPaperKind;
      readonly number?: string;
      readonly credit?: Credit;
    } & OfJob)
  | { readonly do: "kept paper"; readonly issued: IssuedPaper }
  /** The stock after these jobs, and what is to be ordered. */
  | {
      readonly do: "orders";
      readonly jobs: readonly ShelfJob[];
      /** As a shelf file tells it. */
      readonly shelf: string;
      /** Events of each tested part that was put on the shelf. */
      readonly loose: readonly (readonly LedgerEvent[])[];
    };

/** A job that takes parts off the shelf, or waits for one. */
export interface ShelfJob {
  readonly text: string;
  /** So many of its repairs were made before the stock was last counted. */
  readonly counted: number;
}

type OrIssues<T> = ({ readonly ok: true } & T) | { readonly ok: false; readonly issues: readonly string[] };

/** What machine a job is about, and what its shop charges. */
export interface JobShop {
  readonly machine: string;
  /** Where the shop tells what it agrees with its customers. */
  readonly trading?: { readonly currency: Currency; readonly callOut: number; readonly diagnosis: number };
  /** Its name as it stands on its papers. */
  readonly name?: string;
}

/** A paper to be looked at. */
export interface ShownPaper {
  readonly paper: Paper;
  /** Of a quote, an invoice or a credit note. */
  readonly bill?: Bill;
}

export interface OrdersView {
  readonly lines: readonly OrderLine[];
  /** Parts that repairs used and the shelf did not hold. */
  readonly lacking: readonly Taken[];
  /** The stock after the jobs: the file's items in their order, then the tested parts in theirs. */
  readonly items: readonly ShelfItem[];
}

export interface PapersAnswers {
  readonly "job shop": OrIssues<{ readonly shop: JobShop }>;
  readonly papers: OrIssues<{ readonly offers: readonly PaperOffer[] }>;
  /** `issued`: what is kept when it is handed over; none where this page cannot make its hash. */
  readonly paper: OrIssues<ShownPaper & { readonly issued?: IssuedPaper }>;
  readonly "kept paper": OrIssues<ShownPaper>;
  readonly orders: OrIssues<{ readonly view: OrdersView }>;
}
