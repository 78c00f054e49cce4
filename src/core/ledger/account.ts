import type { Party } from "../money/index.ts";
import type { EventFrame, Job, JobEvent } from "./job.ts";
import { withdrawnEvents } from "./known.ts";
import type { Answered, Charge, Fees, IssuedPaper, MoneyEvent, OfferedChoice, Order } from "./money-event.ts";

/** Something that happened, with the event that tells it. */
export type Told<T> = T & { readonly event: string; readonly atMinutes?: number; readonly by?: string };

/** What a job's events say of money: who is who, what was agreed, asked and paid. Amounts are of the shop's currency. */
export interface Account {
  readonly customer?: Party;
  /** Who pays, where that is not the customer. */
  readonly payer?: Party;
  /** What may be spent without asking again, and who said so. */
  readonly limit?: Told<{ readonly amount: number; readonly who?: string; readonly how?: string }>;
  /** The fees that were told before the work, as they were told last. */
  readonly fees?: Told<Fees>;
  readonly offered: readonly Told<OfferedChoice>[];
  /** The last one that was not declined since. */
  readonly accepted?: Told<Answered>;
  readonly declined: readonly Told<Answered>[];
  readonly charges: readonly Told<Charge>[];
  /** Every paper that was handed over, in order; none of them can be withdrawn. */
  readonly issued: readonly Told<IssuedPaper>[];
  readonly paid: readonly Told<Extract<MoneyEvent, { kind: "paid" }>>[];
  readonly ordered: readonly Told<Order & { readonly arrived: boolean }>[];
}

/**
 * Folds what a job's events say of money. Pure; knows no sheet.
 *
 * What was said first of the limit stands in the job's head; a later word overrules it. A withdrawn event does not
 * count.
 */
export function accountOf(job: Job): Account {
  const withdrawn = withdrawnEvents(job);
  const { name, place } = job.customer;
  let customer: Party | undefined =
    name === undefined ? undefined : { name, lines: place === undefined ? [] : [place] };
  let payer: Party | undefined;
  let limit: Account["limit"] =
    job.customer.authority === undefined ? undefined : { event: "", amount: job.customer.authority };
  let fees: Account["fees"];
  let accepted: Account["accepted"];
  const offered = new Map<string, Told<OfferedChoice>>();
  const declined: Told<Answered>[] = [];
  const charges: Told<Charge>[] = [];
  const issued: Told<IssuedPaper>[] = [];
  const paid: Account["paid"][number][] = [];
  const ordered: Account["ordered"][number][] = [];
  for (const event of job.events) {
    if (withdrawn.has(event.id)) continue;
    switch (event.kind) {
      case "customer":
        customer = event.party;
        break;
      case "payer":
        payer = event.party;
        break;
      case "fees":
        fees = told(event);
        break;
      case "allowed":
        limit = told(event);
        break;
      case "offered":
        for (const choice of event.choices) offered.set(choice.choice, { ...choice, ...frameOf(event) });
        break;
      case "accepted":
        accepted = told(event);
        break;
      case "declined":
        declined.push(told(event));
        if (event.choice === "all" || event.choice === accepted?.choice) accepted = undefined;
        break;
      case "charged":
        charges.push(told(event));
        break;
      case "issued":
        issued.push(told(event));
        break;
      case "paid":
        paid.push(told(event));
        break;
      case "ordered":
        ordered.push({ ...told(event), arrived: false });
        break;
      case "arrived": {
        const place = ordered.findIndex(({ part, arrived }) => part === event.part && !arrived);
        const order = ordered[place];
        if (order !== undefined) ordered[place] = { ...order, arrived: true };
        break;
      }
    }
  }
  return {
    ...(customer === undefined ? {} : { customer }),
    ...(payer === undefined ? {} : { payer }),
    ...(limit === undefined ? {} : { limit }),
    ...(fees === undefined ? {} : { fees }),
    offered: [...offered.values()],
    ...(accepted === undefined ? {} : { accepted }),
    declined,
    charges,
    issued,
    paid,
    ordered,
  };
}

function frameOf({ id, atMinutes, by }: EventFrame): Told<object> {
  return {
    event: id,
    ...(atMinutes === undefined ? {} : { atMinutes }),
    ...(by === undefined ? {} : { by }),
  };
}

function told<T extends JobEvent>(event: T): Told<Omit<T, "id" | "line">> {
  const { id: _id, line: _line, ...rest } = event;
  return { ...rest, ...frameOf(event) };
}
