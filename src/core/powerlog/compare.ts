import type { Limits } from "../quantity/index.ts";
import type { PowerAnalysis, Stretch } from "./analysis.ts";
import type { ExpectedStep } from "./expected.ts";
import { placeInOrder } from "./place-in-order.ts";

/** What a log may say of a step of the programme. */
export const STEP_SAYS = [
  "as the sheet says",
  "too little",
  "too much",
  "another power",
  "not seen",
  "not told apart",
] as const;
/** Why a step that is not seen may have been run all the same. */
export const HIDES = ["begins inside a run", "ends inside a run", "holes"] as const;

/** What a log says of one step of the programme. */
export interface StepSeen {
  readonly step: string;
  /** Watts that a good machine may draw in it at the log's volts, or anywhere in the band of the public supply. */
  readonly reach: Limits;
  /**
   * "another power": something of its size runs, but never so strong or so weak. "not told apart": by its power it could be any
   * moment at which the machine stands by. "not seen" never says that a part is open.
   */
  readonly says: (typeof STEP_SAYS)[number];
  /**
   * Where it was seen first in the order of the programme, or what came nearest: watts at the plug, seconds from the first row
   * (none where it is only a power at which the log dwells now and then).
   */
  readonly seen?: { readonly watts: number; readonly from?: number };
  /** Of a heating that is too weak or too strong: watts by what the sheet says, at the same volts or at its rated ones. */
  readonly ofSheet?: number;
  /** Seen, but not where the programme has it: before an earlier step, or after a later one. */
  readonly isOutOfOrder?: boolean;
}

export interface AgainstSheet {
  readonly steps: readonly StepSeen[];
  readonly hides: readonly (typeof HIDES)[number][];
}

/**
 * Public supply 230 V ±10 %, so watts of a heater by its square.
 *
 * @source Regulation (EU) 2019/2022, Article 2 ("mains"): 230 V ±10 %
 */
const MAINS = { lo: 0.9 ** 2, hi: 1.1 ** 2 } as const;
/** A meter's and a sheet's last per cent: no verdict hangs on it (our own choice). */
const SLACK = 0.02;

/** Holds a log against what the sheet says of each step: by power and order, never by how long it took. */
export function againstSheet(
  analysis: PowerAnalysis,
  expected: readonly ExpectedStep[],
  ratedVolts: number,
): AgainstSheet {
  const squared = analysis.volts === undefined ? MAINS : sameVolts(analysis.volts / ratedVolts);
  const middle = analysis.volts === undefined ? 1 : squared.lo;
  const found = expected.map((step) => {
    const reach = { lo: step.reach.lo * squared.lo * (1 - SLACK), hi: step.reach.hi * squared.hi * (1 + SLACK) };
    const fitting = analysis.stretches.flatMap((stretch, number) => {
      const watts = wattsAs(step.load, stretch);
      return watts !== undefined && watts >= reach.lo && watts <= reach.hi
        ? [{ number, watts, from: stretch.from }]
        : [];
    });
    return { step, reach, fitting };
  });
  const places = placeInOrder(found.map(({ fitting }) => fitting.map(({ number }) => number)));
  return {
    steps: found.map(({ step, reach, fitting }, at): StepSeen => {
      const seen = { step: step.step, reach };
      if (step.load === "standing by") return { ...seen, says: "not told apart" };
      const place = places[at];
      const fit = fitting.find(({ number }) => number === place) ?? fitting[0];
      if (fit !== undefined) {
        const order = place === undefined ? { isOutOfOrder: true } : {};
        return { ...seen, says: "as the sheet says", seen: { watts: fit.watts, from: fit.from }, ...order };
      }
      const level = analysis.levels.find(({ watts }) => watts >= reach.lo && watts <= reach.hi);
      if (level !== undefined) return { ...seen, says: "as the sheet says", seen: { watts: level.watts } };
      const near = longest(analysis.stretches.filter(({ load }) => load === step.load));
      if (near === undefined) return { ...seen, says: "not seen" };
      const nearest = { ...seen, seen: { watts: near.watts, from: near.from } };
      if (step.load !== "heater") return { ...nearest, says: "another power" };
      const ofSheet = near.watts / (step.watts * middle);
      return { ...nearest, says: near.watts < reach.lo ? "too little" : "too much", ofSheet };
    }),
    hides: [
      ...(analysis.beginsAtRest ? [] : ["begins inside a run" as const]),
      ...(analysis.endsAtRest ? [] : ["ends inside a run" as const]),
      ...(analysis.gaps.length === 0 ? [] : ["holes" as const]),
    ],
  };
}

function sameVolts(ratio: number): Limits {
  return { lo: ratio ** 2, hi: ratio ** 2 };
}

function longest(runs: readonly Stretch[]): Stretch | undefined {
  return runs.reduce<Stretch | undefined>(
    (best, run) => (run.onSeconds > (best?.onSeconds ?? 0) ? run : best),
    undefined,
  );
}

/** The watts at which a stretch may be a step of such a load; a motor also runs beside a heater. */
function wattsAs(load: ExpectedStep["load"], stretch: Stretch): number | undefined {
  if (load === "standing by") return undefined;
  if (stretch.load === load) return stretch.watts;
  return load === "motor or pump" ? stretch.heating?.beside.watts : undefined;
}
