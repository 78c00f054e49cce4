import { type Pieces, toItsEnd } from "../pace/index.ts";
import type { Test } from "../predict/index.ts";
import type { Foresight } from "./foresight.ts";

/**
 * Signs as tests of a machine: what a person would notice, were nobody ever wrong. Where a fault gives a sign only by odds,
 * it shows the answer that is likelier than not; where none is, it shows no answer.
 */
export function signTests(foresight: Foresight): readonly Test[] {
  return toItsEnd(askingSigns(foresight));
}

/** The same in pieces, one a fault: all is asked of a fault while it is at hand. */
export function* askingSigns(foresight: Foresight): Pieces<readonly Test[]> {
  const { machine, atoms } = foresight;
  const faults = [...atoms.map((atom) => [atom]), []];
  const tests = machine.signs.map((sign) => ({
    sign,
    shown: new Float64Array(faults.length),
    sigma: new Float64Array(faults.length),
  }));
  for (const [f, fault] of faults.entries()) {
    for (const { sign, shown } of tests) {
      const truth = foresight.answers(sign, fault);
      shown[f] = sign.answers.findIndex((_, a) => truth[a] > 0.5);
    }
    yield;
  }
  return tests.map(({ sign, shown, sigma }) => ({ id: sign.id, class: "noticed", shown, sigma }));
}
