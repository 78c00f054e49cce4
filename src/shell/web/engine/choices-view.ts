import { type Choice, type Choices, choicesOf, readDuties, readLives } from "../../../core/choice/index.ts";
import { type Checked, sentence } from "../../../core/issue/index.ts";
import { accountOf, planOf, type WorkedJob } from "../../../core/ledger/index.ts";
import { about, conditionsInWords, limitSentence, money, ofTen, olderSentence } from "../../words/choices.ts";
import { minutesInWords } from "../../words/odds.ts";
import type { Facts } from "./facts.ts";

/** The page that is turned round to the customer. */
export interface ChoicesView {
  readonly machine: string;
  readonly customer?: string;
  /** Who pays, where that is not the customer. */
  readonly payer?: string;
  /** "100 EUR" */
  readonly allowed?: string;
  readonly rows: readonly ChoiceRow[];
  /** The repair limit and the break-even, in a sentence. */
  readonly limit: string;
  readonly older?: string;
  /** `event`: its place in the job file. */
  readonly accepted?: {
    readonly event: number;
    readonly says: string;
    readonly price?: string;
    readonly who?: string;
    readonly signed?: string;
  };
  /** Choices said no to since they were last accepted, by id. */
  readonly declined: readonly string[];
}

export interface ChoiceRow {
  readonly id: string;
  /** The id as an address can bear it. */
  readonly address: string;
  readonly says: string;
  /** What is written down as offered, in whole units of the shop's currency. */
  readonly price: number;
  readonly pays: string;
  /** The same in two pieces, for a narrow column; `range` where it is not one amount: nine in ten lie in it. */
  readonly amount: string;
  readonly range?: { readonly lo: string; readonly hi: string };
  readonly deposit?: string;
  /** Absent where nothing is mended. */
  readonly cured?: { readonly p: number; readonly says: string };
  readonly back?: { readonly says: string; readonly months: number | undefined };
  readonly ready: Ready;
  readonly notes: readonly string[];
}

export type Ready =
  | { readonly when: "never" | "found" | "ordered" }
  | { readonly when: "today"; readonly work: string }
  | { readonly when: "days"; readonly lo: number; readonly hi: number };

/** Weighs the choices of a job as it stands. `date`: today, ISO 8601. */
export function choicesView(worked: WorkedJob, facts: Facts, date: string): ChoicesView {
  const lives = shipped(facts.texts.lives, readLives);
  const duties = shipped(facts.texts.duties, readDuties);
  const all = choicesOf(worked, { lives, duties, date, plan: planOf(worked, "machine") });
  const { customer, offered, accepted, declined } = accountOf(worked.job);
  const older = olderSentence(all);
  const told = offered.find(({ choice }) => choice === accepted?.choice);
  const price = accepted?.price ?? told?.price;
  return {
    machine: worked.sheet.title,
    ...(customer === undefined ? {} : { customer: customer.name }),
    ...(all.payer === undefined ? {} : { payer: all.payer }),
    ...(all.allowed === undefined ? {} : { allowed: money(all.allowed.amount, all.currency) }),
    rows: all.choices.map((choice) => rowOf(choice, all)),
    limit: limitSentence(all),
    ...(older === undefined ? {} : { older }),
    ...(accepted === undefined
      ? {}
      : {
          accepted: {
            event: placeOf(accepted.event),
            says: told?.says ?? accepted.choice,
            ...(price === undefined ? {} : { price: money(price, all.currency) }),
            ...(accepted.who === undefined ? {} : { who: accepted.who }),
            ...(accepted.signed === undefined ? {} : { signed: accepted.signed }),
          },
        }),
    declined: declined
      .filter(({ event }) => accepted === undefined || placeOf(event) > placeOf(accepted.event))
      .map(({ choice }) => choice),
  };
}

function rowOf(choice: Choice, all: Choices): ChoiceRow {
  const { id, says, pays, order, cured, back, guaranteeMonths: months, way } = choice;
  return {
    id,
    address: id.replaceAll(/[^A-Za-z0-9]+/g, "-"),
    says,
    price: Math.round(pays.mean),
    pays: about(pays, all.currency),
    amount: money(pays.mean, all.currency),
    ...(Math.round(pays.lo) === Math.round(pays.hi)
      ? {}
      : { range: { lo: pays.lo.toFixed(0), hi: pays.hi.toFixed(0) } }),
    ...(order === undefined || order.deposit === 0 ? {} : { deposit: money(order.deposit, all.currency) }),
    ...(way === "stop" ? {} : { cured: { p: cured, says: ofTen(cured) } }),
    ...(back === undefined ? {} : { back: { says: ofTen(back), months } }),
    ready: readyOf(choice),
    notes: conditionsInWords(choice, all),
  };
}

function readyOf({ way, order, minutes }: Choice): Ready {
  if (way === "stop") return { when: "never" };
  if (way === "find and mend") return { when: "found" };
  if (order === undefined) return { when: "today", work: minutesInWords(minutes) };
  return order.days === undefined ? { when: "ordered" } : { when: "days", ...order.days };
}

/** Events of a job file are `e1`, `e2` ... */
function placeOf(event: string): number {
  return Number(event.replace(/^e/, ""));
}

/** What ships was checked before it shipped: a fault in it is ours. */
function shipped<T>(
  texts: Readonly<Record<string, string>>,
  read: (text: string, file: string) => Checked<readonly T[]>,
): readonly T[] {
  return Object.entries(texts).flatMap(([name, text]) => {
    const checked = read(text, name);
    if (!checked.ok) throw new Error(`shipped facts are faulty: ${checked.issues.map(sentence).join("; ")}`);
    return checked.value;
  });
}
