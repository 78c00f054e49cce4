import { quantileOf } from "../chance/index.ts";
import type { Moment } from "../part/index.ts";
import type { Machine } from "../sheet/index.ts";
import { effectsOf, type Fault } from "./atom.ts";

/** Thirds of a range, each by its middle. */
const POINTS = [1 / 6, 1 / 2, 5 / 6];

/**
 * Machines that differ in the ratings their protectors act at (an RCD trips somewhere between 15 and 30 mA), all of them
 * early, middling or late: rated numbers by weight. One machine, its ratings as they stand, where no protector has a range.
 */
export function ratingPoints(
  machine: Machine,
): readonly { readonly weight: number; readonly parameters: readonly number[] }[] {
  const nominal = machine.parameters.map(({ rated }) => rated.nominal);
  const watched = thresholds(machine);
  if (watched.size === 0) return [{ weight: 1, parameters: nominal }];
  return POINTS.map((p) => ({
    weight: 1 / POINTS.length,
    parameters: machine.parameters.map(({ rated }, i) =>
      watched.has(i) && p !== 1 / 2 ? quantileOf(rated, p) : nominal[i],
    ),
  }));
}

/** Does a fault let more current flow than a good machine? Only then does it matter when a protector acts. */
export function drivesProtectors(fault: Fault): boolean {
  return effectsOf(fault).some(({ does }) => does === "leak" || does === "short" || does === "parallel");
}

/** Ranged ratings that some state set moves by. They are found by moving every set in a few made-up moments. */
function thresholds(machine: Machine): ReadonlySet<number> {
  const asked = new Set<number>();
  for (const value of [0, 1e-3, 1, 1e6]) {
    const moment = recording(machine, value, asked);
    for (const { moves } of machine.stateSets) for (const { when } of moves) when(moment);
  }
  return new Set([...asked].filter((parameter) => machine.parameters[parameter].rated.spread === "range"));
}

function recording(machine: Machine, value: number, asked: Set<number>): Moment {
  const same = (): number => value;
  return {
    volts: same,
    amps: same,
    watts: same,
    between: same,
    cross: same,
    apart: same,
    variable: same,
    good: same,
    state: () => 0,
    parameter: (index) => {
      asked.add(index);
      return machine.parameters[index].rated.nominal;
    },
  };
}
