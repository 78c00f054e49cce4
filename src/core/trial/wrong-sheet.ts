import type { Random } from "../chance/index.ts";
import type { Mode } from "../fault/index.ts";
import type { Combination, Machine } from "../sheet/index.ts";
import type { Foresight } from "../suspect/index.ts";

/** In what the technician's sheet may be wrong while the machine is as it is. */
export const WRONG_SHEETS = ["rates", "variant", "missing-part"] as const;
export type WrongSheet = (typeof WRONG_SHEETS)[number];

/** How far rates are off, up or down. */
const OFF_BY = 3;

/** The same foresight with other shares; what was solved stays, since no share moves a circuit. */
export function reweighted(foresight: Foresight, shareOf: (mode: Mode) => number): Foresight {
  const made = new Map(foresight.modes.map((mode) => [mode, { ...mode, share: shareOf(mode) }]));
  return {
    ...foresight,
    modes: [...made.values()],
    atoms: foresight.atoms.map((atom) => ({ ...atom, mode: made.get(atom.mode) ?? atom.mode })),
  };
}

/** Every part and cause fails three times as often, or a third as often, as the sheet says; by chance. */
export function ratesOff(foresight: Foresight, random: Random): Foresight {
  return reweighted(foresight, (mode) => {
    const up = random.fork(ownerOf(mode, foresight.machine)).uniform() < 0.5;
    return mode.share * (up ? OFF_BY : 1 / OFF_BY);
  });
}

/** A part that the sheet leaves out, picked by how often it fails. */
export function partLeftOut(foresight: Foresight, random: Random): string {
  const { modes, machine } = foresight;
  return ownerOf(modes[random.pick(modes.map(({ share }) => share))], machine);
}

/** The sheet without the failures of one part or cause. */
export function without(foresight: Foresight, owner: string): Foresight {
  return reweighted(foresight, (mode) => (ownerOf(mode, foresight.machine) === owner ? 0 : mode.share));
}

/** Part or cause that a mode belongs to. */
export function ownerOf(mode: Mode, machine: Machine): string {
  return mode.cause >= 0 ? machine.causes[mode.cause].id : machine.parts[mode.part].id;
}

/**
 * One slot answered wrong: the allowed combination that differs in that slot and in as little else as possible.
 *
 * @returns the machine's own where no other is allowed
 */
export function oneSlotWrong(
  own: Combination["choice"],
  combinations: readonly Combination[],
  random: Random,
): Combination["choice"] {
  const differences = (other: Combination["choice"]): number =>
    [...new Set([...own.keys(), ...other.keys()])].filter((slot) => own.get(slot) !== other.get(slot)).length;
  const others = combinations.map(({ choice }) => choice).filter((choice) => differences(choice) > 0);
  const least = Math.min(...others.map(differences));
  const nearest = others.filter((choice) => differences(choice) === least);
  return nearest.length === 0 ? own : nearest[random.pick(nearest.map(() => 1))];
}
