import type { Found, PlanStep, StepOutcome } from "../../core/plan/index.ts";
import { oddsInWords } from "./odds.ts";
import { reachInWords } from "./reading.ts";

const mostLeads = 4;
const mostParts = 2;
/** Ends of neighbouring intervals that lie closer together than this share of them touch. */
const touching = 1e-9;

/** Ways a step may come out that lead to the same, and what they lead to. */
export interface OutcomeInWords {
  readonly ways: readonly string[];
  readonly lead: string;
}

/**
 * What each way a step may come out leads to, likeliest first. Ways that make the same place likeliest and lead to the same
 * are told together, readings that lie side by side as one.
 */
export function outcomesOf(step: PlanStep): readonly OutcomeInWords[] {
  const alike = new Map<string, StepOutcome[]>();
  for (const outcome of step.outcomes) {
    const key = `${outcome.parts[0]?.id ?? ""} ${leadInWords(outcome)}`;
    alike.set(key, [...(alike.get(key) ?? []), outcome]);
  }
  return [...alike.values()].slice(0, mostLeads).map((outcomes) => ({
    ways: alike.size === 1 ? ["whatever it shows"] : waysInWords(step, outcomes),
    lead: `${partsInWords(outcomes)}. ${leadInWords(outcomes[0] as StepOutcome)}`,
  }));
}

/** The likeliest places over some outcomes, each outcome by its chance. */
function partsInWords(outcomes: readonly StepOutcome[]): string {
  const whole = outcomes.reduce((sum, { chance }) => sum + chance, 0);
  const held = new Map<string, number>();
  for (const { parts, chance } of outcomes)
    for (const { says, p } of parts) held.set(says, (held.get(says) ?? 0) + (p * chance) / whole);
  return [...held]
    .sort(([, a], [, b]) => b - a)
    .slice(0, mostParts)
    .map(([says, p]) => `${says}, ${oddsInWords(p)}`)
    .join("; ");
}

function waysInWords(step: PlanStep, outcomes: readonly StepOutcome[]): string[] {
  const ways: (readonly Found[])[] = [];
  for (const { found } of outcomes) {
    let way = found;
    // A way that grew may now touch one told before it.
    for (let n = 0; n < ways.length; ) {
      const both = joined(step, ways[n] as readonly Found[], way);
      if (both === undefined) n++;
      else {
        way = both;
        ways.splice(n, 1);
        n = 0;
      }
    }
    ways.push(way);
  }
  return ways.map(wayInWords);
}

/** Two ways as one, where they differ in one reading only and its intervals touch. */
function joined(step: PlanStep, one: readonly Found[], other: readonly Found[]): readonly Found[] | undefined {
  if (one.length !== other.length) return undefined;
  const differing = one.flatMap((found, n) => (found.says === other[n]?.says ? [] : [n]));
  const [at] = differing;
  if (at === undefined || differing.length > 1) return undefined;
  const [low, high] = [one[at], other[at]].sort((a, b) => (a?.reach?.lo ?? 0) - (b?.reach?.lo ?? 0));
  if (low?.reach === undefined || high?.reach === undefined) return undefined;
  if (high.reach.lo - low.reach.hi > touching * high.reach.hi) return undefined;
  const reach = { lo: low.reach.lo, hi: Math.max(low.reach.hi, high.reach.hi) };
  const quantity = step.questions[low.question]?.probe?.quantity;
  if (quantity === undefined) return undefined;
  const isUnder = low.says.startsWith("under ");
  const says = reachInWords(isUnder ? { lo: 0, hi: reach.hi } : reach, quantity, 2);
  return one.map((found, n) => (n === at ? { question: found.question, says, reach } : found));
}

function wayInWords(found: readonly Found[]): string {
  if (found.length === 0) return "anything else";
  return found.map(({ question, says }) => (found.length > 1 ? `(${letterOf(question)}) ${says}` : says)).join("  ");
}

function leadInWords({ leadsTo }: StepOutcome): string {
  switch (leadsTo.do) {
    case "stop":
      return "Then stopping would be cheaper than going on.";
    case "mend":
      return `Then ${leadsTo.says}.`;
    case "check":
      return `Then check: ${leadsTo.says}.`;
  }
}

/** (a), (b), as the questions of a step are marked. */
export function letterOf(index: number): string {
  return String.fromCharCode("a".charCodeAt(0) + index);
}
