import type { Test } from "../predict/index.ts";
import type { Foresight } from "./foresight.ts";

/**
 * Signs as tests of a machine: what a person would notice, were nobody ever wrong. Where a fault gives a sign only by odds,
 * it shows the answer that is likelier than not; where none is, it shows no answer.
 */
export function signTests(foresight: Foresight): readonly Test[] {
  const { machine, atoms } = foresight;
  const faults = [...atoms.map((atom) => [atom]), []];
  return machine.signs.map((sign) => {
    const label = (truth: ArrayLike<number>): number => sign.answers.findIndex((_, a) => truth[a] > 0.5);
    return {
      id: sign.id,
      class: "noticed",
      shown: Float64Array.from(faults, (fault) => label(foresight.answers(sign, fault))),
      sigma: new Float64Array(faults.length),
    };
  });
}
