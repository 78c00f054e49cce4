import type { Mode } from "../fault/index.ts";
import type { Fault } from "../predict/index.ts";
import type { Machine } from "../sheet/index.ts";
import { meansMode, type Observation } from "../sign/index.ts";
import type { Foresight } from "./foresight.ts";
import type { Judge } from "./hypothesis-chance.ts";

type LookSeen = Extract<Observation, { kind: "look" }>;

/** A fault that shows nothing by its kind's own words is still now and then seen; a good part now and then looks bad (from memory). */
const HIT_UNSAID = 0.05;
const FALSE_ALARM_UNSAID = 0.02;
/** A cause whose sheet gives no odds for its look (from memory). */
const CAUSE_LOOK = { hit: 0.7, falseAlarm: 0.05 };

/** "Bad" and "good" as found by a look at a part or a cause. */
export function judgeLook(foresight: Foresight, look: LookSeen): Judge<number> {
  const { machine, modes } = foresight;
  const here = modes.filter((mode) => isLookedAt(mode, look, machine));
  const falseAlarm = mean(here.map((mode) => oddsOf(mode, machine).falseAlarm)) ?? FALSE_ALARM_UNSAID;
  return {
    foresee: (fault: Fault) =>
      fault.reduce(
        (most, { mode }) => (here.includes(mode) ? Math.max(most, oddsOf(mode, machine).hit) : most),
        falseAlarm,
      ),
    same: (a, b) => Math.abs(a - b) < 1e-9,
    chances: (bad) => Float64Array.of(bad, 1 - bad),
    // What is wrong with a machine may stay wrong to the eye while the contact holds.
    comesAndGoes: (_, bad) => Float64Array.of(bad, 1 - bad),
    anything: Float64Array.of(0.2, 0.8),
    costs: "nothing",
  };
}

function isLookedAt(mode: Mode, look: LookSeen, machine: Machine): boolean {
  return meansMode(look.mode === undefined ? look.at : `${look.at}/${look.mode}`, mode, machine);
}

function oddsOf(mode: Mode, machine: Machine): { readonly hit: number; readonly falseAlarm: number } {
  if (mode.cause >= 0) return machine.causes[mode.cause].look?.odds ?? CAUSE_LOOK;
  return mode.seen ?? { hit: HIT_UNSAID, falseAlarm: FALSE_ALARM_UNSAID };
}

function mean(numbers: readonly number[]): number | undefined {
  return numbers.length === 0 ? undefined : numbers.reduce((sum, x) => sum + x, 0) / numbers.length;
}
