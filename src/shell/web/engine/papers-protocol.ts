import type { Bill } from "../../../core/bill/index.ts";
import type { IssuedPaper, LedgerEvent } from "../../../core/ledger/index.ts";
import type { Currency } from "../../../core/money/index.ts";
import type { Credit, JobPaperKind, Paper, PaperOffer } from "../../../core/paper/index.ts";
import type { OrderLine, ShelfItem, Taken, Used } from "../../../core/shelf/index.ts";

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
      /** Everything that was written down of the stock. */
      readonly stock: readonly LedgerEvent[];
      /** Ids of all repairs that were not taken back. */
      readonly standing: readonly string[];
      /** Events of each tested part that was put on the shelf. */
      readonly loose: readonly (readonly LedgerEvent[])[];
    };

/** A job that takes parts off the shelf, or waits for one. */
export interface ShelfJob {
  readonly text: string;
  /** Ids of its repairs in their order, those left out that were taken back. */
  readonly repairs: readonly string[];
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
  /** The stock after the repairs; `record`: of a tested part, its job. */
  readonly items: readonly (ShelfItem & { readonly record?: string })[];
}

export interface PapersAnswers {
  readonly "job shop": OrIssues<{ readonly shop: JobShop }>;
  readonly papers: OrIssues<{ readonly offers: readonly PaperOffer[] }>;
  /** `issued`: what is kept when it is handed over; none where this page cannot make its hash. */
  readonly paper: OrIssues<ShownPaper & { readonly issued?: IssuedPaper }>;
  readonly "kept paper": OrIssues<ShownPaper>;
  /** `uses`: what repairs took that nobody had worked out before: to be written down. */
  readonly orders: OrIssues<{ readonly view: OrdersView; readonly uses: readonly Used[] }>;
}
