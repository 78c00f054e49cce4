import { invoiceOf, quoteOf, standingInvoices } from "../bill/index.ts";
import { guaranteeOf } from "./guarantee.ts";
import type { JobPaperKind } from "./make-paper.ts";
import { PAPER_KINDS } from "./paper.ts";
import type { PaperFacts } from "./paper-facts.ts";
import { supplierClaimOf } from "./supplier-claim.ts";

/** Why a job cannot have a paper yet. */
export type WhyNot =
  | "no prices"
  | "no letterhead"
  | "no customer"
  | "nothing to charge"
  | "invoice stands"
  | "no invoice"
  | "no tests"
  | "not mended"
  | "not closed"
  | "no guarantee"
  | "no notice"
  | "no measured part";

/** A paper that a job can have now, or why it cannot yet. */
export interface PaperOffer {
  readonly kind: JobPaperKind;
  readonly why?: WhyNot;
}

/** Every paper of a job: those it can have as its events stand now, and of each other what is missing. */
export function paperOffers(facts: PaperFacts): readonly PaperOffer[] {
  return PAPER_KINDS.flatMap((kind): readonly PaperOffer[] => {
    if (kind === "tag") return [];
    const why = whyNot(kind, facts);
    return [{ kind, ...(why === undefined ? {} : { why }) }];
  });
}

function whyNot(kind: JobPaperKind, facts: PaperFacts): WhyNot | undefined {
  const { worked, closing, account } = facts;
  const { trading } = worked.shop;
  switch (kind) {
    case "quote":
      return unbilled(facts, quoteOf);
    case "invoice":
      if (trading !== undefined && standingInvoices(account, trading.currency).length > 0) return "invoice stands";
      return unbilled(facts, invoiceOf);
    case "credit note":
      if (trading === undefined) return "no prices";
      return standingInvoices(account, trading.currency).some(({ issued }) => issued.content !== undefined)
        ? undefined
        : "no invoice";
    case "safety":
      return closing.safety === undefined ? "no tests" : undefined;
    case "guarantee":
      return unguaranteed(facts);
    case "notice":
      return closing.notices.length === 0 ? "no notice" : undefined;
    case "claim":
      return supplierClaimOf(facts) === undefined ? "no measured part" : undefined;
    case "report":
    case "repair form":
      return undefined;
  }
}

/** What keeps a job from being quoted or billed. */
function unbilled({ worked, account, date }: PaperFacts, billOf: typeof invoiceOf): WhyNot | undefined {
  if (worked.shop.trading === undefined) return "no prices";
  if (worked.shop.letterhead === undefined) return "no letterhead";
  if ((account.payer ?? account.customer) === undefined) return "no customer";
  return billOf(worked, { number: "", date }).ok ? undefined : "nothing to charge";
}

function unguaranteed(facts: PaperFacts): WhyNot | undefined {
  if (facts.worked.shop.trading?.guaranteeMonths === undefined) return "no guarantee";
  if (facts.worked.state.repairs.every(({ worked }) => worked === false)) return "not mended";
  return guaranteeOf(facts) === undefined ? "not closed" : undefined;
}
