import type { Observation } from "../sign/index.ts";
import type { Belief } from "./case.ts";
import type { Foresight } from "./foresight.ts";
import type { ForeseenCase } from "./make-case.ts";
import type { Entry } from "./prior.ts";

/** One of the three things to be seen before a board may be blamed. */
export interface Leg {
  readonly leg: "inputs good" | "output commanded" | "output missing";
  readonly seen: boolean;
  /** Odds of what still speaks against it, 0..1. */
  readonly doubt: number;
}

/** How far the blame of one assembly is proved. */
export interface Legs {
  readonly assembly: string;
  readonly says: string;
  /** Odds that a fault sits in it. */
  readonly p: number;
  readonly legs: readonly Leg[];
  /** All three legs seen; until then the board is only "not excluded". */
  readonly proved: boolean;
}

/** A leg is seen when less than this speaks against it. */
const DOUBT = 0.05;
/** Assemblies less likely than this are not asked about; hypotheses less likely are not run. */
const LEAST = 0.02;
const LEAST_RUN = 1e-4;

/**
 * For every assembly that may be at fault: are its inputs seen good, its output seen commanded, the output seen missing?
 *
 * Inputs are doubtful while faults outside it are left that keep it from commanding; the output, while faults outside it
 * are left that let it command; the command, while it is not settled whether the output is commanded at all.
 */
export function legs(known: ForeseenCase, observations: readonly Observation[], belief: Belief): readonly Legs[] {
  const steps = stepsInQuestion(known, observations);
  const assemblies = new Map(
    known.candidates.flatMap(({ machine }) => machine.assemblies.map(({ id, says }) => [id, says])),
  );
  return [...assemblies].flatMap(([assembly, says]): readonly Legs[] => {
    const tally = { inside: 0, outsideSilent: 0, outsideCommanded: 0, commanded: 0, all: 0 };
    for (const [h, entry] of known.hypotheses.entries()) {
      const p = Math.exp(belief.logPosterior[h]);
      if (p < LEAST_RUN || entry.modes.length === 0) continue;
      const foresight = known.foresights[entry.candidate];
      const inside = entry.modes.some((mode) => foresight.machine.parts[mode.part]?.of === assembly);
      const commanded = commandsAll(foresight, entry, steps);
      tally.all += p;
      if (commanded) tally.commanded += p;
      if (inside) tally.inside += p;
      else if (commanded) tally.outsideCommanded += p;
      else tally.outsideSilent += p;
    }
    if (tally.inside < LEAST) return [];
    const settled = tally.commanded / Math.max(tally.all, Number.MIN_VALUE);
    const found: readonly Leg[] = [
      leg("inputs good", tally.outsideSilent),
      leg("output commanded", Math.min(settled, 1 - settled)),
      leg("output missing", tally.outsideCommanded),
    ];
    return [{ assembly, says, p: tally.inside, legs: found, proved: found.every(({ seen }) => seen) }];
  });
}

function leg(name: Leg["leg"], doubt: number): Leg {
  return { leg: name, doubt, seen: doubt < DOUBT };
}

/** Steps whose signs were not as in a good machine; all steps where none was. */
function stepsInQuestion(known: ForeseenCase, observations: readonly Observation[]): readonly string[] {
  const [foresight] = known.foresights;
  const amiss = observations.flatMap((observation) => {
    if (observation.kind !== "sign") return [];
    const sign = foresight.machine.signs.find(({ id }) => id === observation.sign);
    if (sign?.in === undefined) return [];
    const good = foresight.answers(sign, []);
    return (good[sign.answers.indexOf(observation.answer)] ?? 1) < 0.5 ? [sign.in] : [];
  });
  return amiss.length > 0 ? [...new Set(amiss)] : foresight.machine.steps.map(({ id }) => id);
}

/** Does the control drive all that it drives in a good machine, in these steps? */
function commandsAll(foresight: Foresight, entry: Entry, steps: readonly string[]): boolean {
  return steps.every((step) => {
    const now = foresight.commands(step, entry.atoms);
    return [...foresight.commands(step, [])].every((output) => now.has(output));
  });
}
