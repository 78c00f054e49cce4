import { expect, it } from "vitest";
import { modesOf } from "../../src/core/fault/index.ts";
import { openRunner } from "../../src/core/run/index.ts";
import { shippedCase } from "../machines/shipped-case.ts";

/** Every so many of the faults that are one bad place in series. */
const EVERY = 9;

for (const [family, answers] of [
  ["tumble-dryer", { air: "vented", stages: "two" }],
  ["dishwasher", {}],
  ["washing-machine", {}],
] as const) {
  it(`a bad place on the ${family}'s wires runs as it does where no run of its neighbours was kept`, () => {
    const [{ machine }] = shippedCase(family, answers, { pairsAtMost: 10 }).candidates;
    const inSeries = modesOf(machine)
      .flatMap(({ severities }) => severities.map(({ effects }) => effects))
      .filter((effects) => effects.length === 1 && (effects[0].does === "open" || effects[0].does === "series"));
    const runner = openRunner(machine);
    const runs = inSeries.map((effects) => runner.run(effects));
    const pictures = ([...keyed]: (typeof runs)[number]["pictures"]) =>
      keyed.map(([key, { members }]) => [
        key,
        members.map(({ weight, states, variables }) => [
          weight.toFixed(6),
          states,
          [...variables].map((x) => x.toPrecision(9)),
        ]),
      ]);
    for (let n = EVERY - 1; n < runs.length; n += EVERY) {
      const anew = openRunner(machine).run(inSeries[n]);
      const { pictures: taken, ...rest } = runs[n];
      const { pictures: takenAnew, ...restAnew } = anew;
      expect(rest).toEqual(restAnew);
      expect(pictures(taken)).toEqual(pictures(takenAnew));
    }
  });
}
