// Where first order will not do, the quadrature must: readings under power against machines drawn outright.
import { expect, test } from "vitest";
import { draw, seeded } from "../../src/core/chance/index.ts";
import { modesOf } from "../../src/core/fault/index.ts";
import { type Prediction, Predictor, probeOf, usualProbes } from "../../src/core/predict/index.ts";
import { withNumbers } from "../../src/core/trial/index.ts";
import { shippedMachine } from "../machines/shipped.ts";

const seed = 31;
const draws = 100;
const INPUT = 1e7;
const machine = shippedMachine("washing-machine");
const predictor = new Predictor(machine, modesOf(machine));
const drawn = Array.from({ length: draws }, (_, n) => {
  const random = seeded(seed).fork(String(n));
  return new Predictor(
    withNumbers(
      machine,
      machine.parameters.map(({ rated }) => draw(rated, random)),
    ),
    [],
  );
});

function moments({ terms }: Prediction): { readonly mean: number; readonly sigma: number } {
  const values = terms.filter((term) => term.kind === "value");
  const mean = values.reduce((sum, term) => sum + term.weight * term.mean, 0);
  const square = values.reduce((sum, term) => sum + term.weight * (term.sigma ** 2 + term.mean ** 2), 0);
  return { mean, sigma: Math.sqrt(square - mean * mean) };
}

test(`watts while the lock's stone heats, its ohms known to a factor: mean of ${draws} drawn machines within 5 %, spread within 10 %`, () => {
  const probe = probeOf({ quantity: "watts", state: { kind: "live", step: "lock" } });
  const prediction = predictor.shows(probe, INPUT, []);
  expect(prediction.terms.length).toBeGreaterThan(1);
  const found = drawn.map((one) => one.value(probe, INPUT, []));
  const mean = found.reduce((sum, x) => sum + x, 0) / draws;
  const sigma = Math.sqrt(found.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (draws - 1));
  const foreseen = moments(prediction);
  expect(Math.abs(foreseen.mean / mean - 1)).toBeLessThan(0.05);
  expect(Math.abs(foreseen.sigma / sigma - 1)).toBeLessThan(0.1);
});

// Between two points ohms are a ratio of straight lines in each resistance, so no narrow number (limits within 30 %) can
// bend them: half a step misses the slope by less than half its share of the number.
test("half a step of any narrow number moves ohms with the plug out by its slope, within 15 of 100", () => {
  const dead = usualProbes(machine)
    .map(({ probe }) => probe)
    .filter(({ quantity, state }) => quantity === "ohms" && state.kind === "dead");
  let compared = 0;
  for (const [p, { rated }] of machine.parameters.entries()) {
    if (rated.spread !== "tolerance" || rated.hi > 1.3 * rated.nominal || rated.lo < 0.7 * rated.nominal) continue;
    const step = 0.25 * (rated.hi - rated.nominal);
    if (!(step > 0)) continue;
    const at = (times: number) =>
      new Predictor(
        withNumbers(
          machine,
          machine.parameters.map(({ rated: one }, other) => one.nominal + (other === p ? times * step : 0)),
        ),
        [],
      );
    const [before, little, half] = [at(0), at(0.01), at(1)];
    for (const probe of dead) {
      const [ohms, near, far] = [before, little, half].map((one) => one.value(probe, INPUT, []));
      const slope = (near - ohms) / 0.01;
      if (!Number.isFinite(ohms) || Math.abs(slope) < 1e-4 * ohms) continue;
      expect(Math.abs((far - ohms) / slope - 1), `${probe.id} by number ${p}`).toBeLessThan(0.15);
      compared++;
    }
  }
  expect(compared).toBeGreaterThan(10);
});
