import type { Test } from "../predict/index.ts";
import type { Foresight } from "./foresight.ts";

/** Signs as tests of a machine: what a person would notice, were nobody ever wrong; tables of odds tell nothing for sure. */
export function signTests(foresight: Foresight): readonly Test[] {
  const { machine, atoms } = foresight;
  return machine.signs
    .filter(({ rule }) => rule.kind !== "table")
    .map((sign) => {
      const label = (truth: ArrayLike<number>): number => sign.answers.findIndex((_, a) => truth[a] > 0.5);
      return {
        id: sign.id,
        class: "noticed",
        labels: Int32Array.from(atoms, (atom) => label(foresight.answers(sign, [atom]))),
        good: label(foresight.answers(sign, [])),
      };
    });
}
