import type { Random } from "../chance/index.ts";
import type { Meter } from "../meter/index.ts";
import type { Shop } from "../remedy/index.ts";
import { combinations, type Library, type Sheet } from "../sheet/index.ts";
import { findMachine, type MachineType, typeOf, USUAL_ERRORS } from "../trial/index.ts";
import { Practice } from "./practice.ts";
import { toldUnasked } from "./told-unasked.ts";

/** What practice draws its machines from. */
export interface PracticeGround {
  readonly sheet: Sheet;
  readonly library: Library;
  readonly shop: Shop;
  readonly meters: ReadonlyMap<string, Meter>;
}

/** A type of the family, as often as it is met among those that the answers allow; these must not contradict. */
export function drawType(
  ground: PracticeGround,
  random: Random,
  answers: ReadonlyMap<string, string> = new Map(),
): MachineType {
  const types = combinations(ground.sheet, answers);
  const { choice } = types[random.fork("type").pick(types.map(({ weight }) => weight))];
  return typeOf(ground, choice, random.fork("sheet"));
}

/**
 * A learner before a machine of that type with a hidden fault; the same seed gives the same machine.
 *
 * @param fault  only faults of this part or cause, or part/way of failing, are drawn
 * @returns      undefined where no such fault is one that anybody would call about
 */
export function drawPractice(type: MachineType, shop: Shop, random: Random, fault?: string): Practice | undefined {
  const met = findMachine(type, shop, random.fork("machine"), USUAL_ERRORS, fault);
  if (met === undefined) return undefined;
  return new Practice(type.right, met.truth, toldUnasked(type.right.machine, met.complaints));
}
