import type { Found, PlanStep, StepOutcome } from "../../core/plan/index.ts";
import { oddsInWords } from "./odds.ts";
import { reachInWords } from "./reading.ts";

const mostLeads = 3;
/** Ways told of what leads to the same. */
const mostWays = 3;
const mostParts = 2;
/** Chance from which what is told of a step is all that is to be expected of it. */
const nearlyAll = 0.95;
/** Ends of neighbouring intervals that lie closer together than this share of them touch. */
const touching = 1e-9;

/** Ways a step may come out that lead to the same, and what they lead to. */
export interface OutcomeInWords {
  readonly ways: readonly string[];
  readonly lead: string;
}

/**
 * What each way a step may come out leads to, likeliest first. Ways that make the same place likeliest and lead to the same
 * are told together, readings that lie side by side as one; what comes out in too many ways to tell stands last.
 */
export function outcomesOf(step: PlanStep): readonly OutcomeInWords[] {
  const alike = new Map<string, StepOutcome[]>();
  for (const outcome of step.outcomes) {
    const key = `${outcome.parts[0]?.id ?? ""} ${leadInWords(outcome)}`;
    alike.set(key, [...(alike.get(key) ?? []), outcome]);
  }
  const groups = [...alike.values()]
    .map((outcomes) => ({
      chance: outcomes.reduce((sum, { chance }) => sum + chance, 0),
      ways: waysInWords(step, outcomes),
      lead: `${partsInWords(outcomes)}. ${leadInWords(outcomes[0] as StepOutcome)}`,
    }))
    .sort((a, b) => b.chance - a.chance);
  const [only] = groups;
  if (groups.length === 1 && only !== undefined && only.chance >= nearlyAll) {
    return [{ ways: ["whatever it shows"], lead: only.lead }];
  }
  // What comes out in many ways, or in rare ones only, is what is left over when the rest has been told.
  const isRest = ({ ways }: { ways: readonly string[] }): boolean => ways.length === 0 || ways.length > mostWays;
  const rest = groups.find(isRest);
  const others = groups.filter(({ ways }) => ways.length > 0).filter((one) => one !== rest);
  return [
    ...others.slice(0, mostLeads).map(({ ways, lead }) => ({ ways: ways.slice(0, mostWays), lead })),
    ...(rest === undefined ? [] : [{ ways: ["anything else"], lead: rest.lead }]),
  ];
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
    if (found.length === 0) continue;
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
