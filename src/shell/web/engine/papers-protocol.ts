import type { Bill } from "../../../core/bill/index.ts";
import type { IssuedPaper } from "../../../core/ledger/index.ts";
import type { Currency } from "../../../core/money/index.ts";
import type { Credit, JobPaperKind, Paper, PaperOffer } from "../../../core/paper/index.ts";
import type { OrderLine, Taken } from "../../../core/shelf/index.ts";

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
  | ({ readonly do: "papers" } & OfJob)
  | ({
      readonly do: "paper";
      readonly kind: JobPaperKind;
      readonly number?: string;
      readonly credit?: Credit;
    } & OfJob)
  | { readonly do: "kept paper"; readonly issued: IssuedPaper }
  /** Parts to order for these jobs, with the stock as a shelf file tells it. */
  | { readonly do: "orders"; readonly texts: readonly string[]; readonly shelf: string };

type OrIssues<T> = ({ readonly ok: true } & T) | { readonly ok: false; readonly issues: readonly string[] };

/** What a job can have now, and what its shop charges. */
export interface PapersView {
  readonly offers: readonly PaperOffer[];
  readonly machine: string;
  /** Of the shop, where it tells what it agrees with its customers. */
  readonly trading?: { readonly currency: Currency; readonly callOut: number; readonly diagnosis: number };
  /** Name of the shop as it stands on its papers. */
  readonly shop?: string;
}

/** A paper to be looked at. */
export interface ShownPaper {
  readonly paper: Paper;
  /** Of a quote, an invoice or a credit note. */
  readonly bill?: Bill;
}

export interface OrdersView {
  readonly lines: readonly OrderLine[];
  readonly taken: readonly Taken[];
  /** Counts of the shelf's items after the jobs, in their order. */
  readonly counts: readonly number[];
}

export interface PapersAnswers {
  readonly papers: OrIssues<{ readonly view: PapersView }>;
  /** `issued`: what is kept when it is handed over; none where this page cannot make its hash. */
  readonly paper: OrIssues<ShownPaper & { readonly issued?: IssuedPaper }>;
  readonly "kept paper": OrIssues<ShownPaper>;
  readonly orders: OrIssues<{ readonly view: OrdersView }>;
}
