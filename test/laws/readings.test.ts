import fc from "fast-check";
import { expect, test } from "vitest";
import { modesOf } from "../../src/core/fault/index.ts";
import { readingEstimate } from "../../src/core/meter/index.ts";
import { type Atom, Predictor, usualProbes } from "../../src/core/predict/index.ts";
import { correlation, covariance, divide, scale, subtract, uncertainty } from "../../src/core/quantity/index.ts";
import { openRunner } from "../../src/core/run/index.ts";
import { shippedMachine } from "../machines/shipped.ts";
import { handheld } from "../machines/shipped-case.ts";

// Laws of readings, on the dryer.

const seed = 19;
const machine = shippedMachine("tumble-dryer");
const modes = modesOf(machine);
const predictor = new Predictor(machine, modes);
const probes = usualProbes(machine).map(({ probe }) => probe);

test("a fault that changes nothing, and one that doubles and halves a part, read as the good machine at every usual probe, to the last digit", () => {
  const heater = machine.elements.findIndex(({ id }) => id.startsWith("heater."));
  expect(heater).toBeGreaterThanOrEqual(0);
  const idle = [
    [],
    [
      { does: "factor" as const, element: heater, by: 2 },
      { does: "factor" as const, element: heater, by: 0.5 },
    ],
  ];
  const read = probes.filter(({ measure }) => measure === undefined);
  expect(read.length).toBeGreaterThan(100);
  for (const effects of idle) {
    const fresh = new Predictor(machine, modes);
    const atom: Atom = {
      index: fresh.atoms.length,
      mode: { ...modes[0], severities: [{ weight: 1, effects }] },
      severity: 0,
    };
    for (const probe of read) expect(fresh.value(probe, 1e7, [atom]), probe.id).toBe(predictor.value(probe, 1e7, []));
  }
});

test("a run with nothing changed is the healthy run, picture for picture", () => {
  const runner = openRunner(machine);
  const pictures = (run: typeof runner.healthy) => JSON.stringify([...run.pictures.entries()]);
  for (const mode of modes.slice(0, 20)) runner.run(mode.severities[0].effects);
  expect(pictures(runner.run([]))).toBe(pictures(openRunner(machine).healthy));
});

test(`two readings by one meter in one range share its gain: less error in their difference, none of it in their ratio (100 pairs, seed ${seed})`, () => {
  const meter = handheld();
  const other = { ...meter, id: "another" };
  const shown = probes
    .filter(({ quantity, state }) => quantity === "ohms" && state.kind === "dead")
    .map((probe) => predictor.value(probe, 1e7, []))
    .filter((ohms) => ohms > 1 && ohms < 500);
  expect(new Set(shown).size).toBeGreaterThan(3);
  const one = (ohms: number, reading: string, by = meter) => {
    const found = readingEstimate(by, "ohms", ohms, "nulled", reading);
    if (found === undefined) throw new Error(`no range of ${by.id} shows ${ohms} ohms`);
    return found;
  };
  fc.assert(
    fc.property(fc.constantFrom(...shown), fc.double({ min: 0.8, max: 1.1, noNaN: true }), (ohms, factor) => {
      const [a, b] = [one(ohms, "1"), one(ohms * factor, "2")];
      const apart = one(ohms * factor, "2", other);
      expect(covariance(a, b)).toBeGreaterThan(0);
      expect(correlation(a, b)).toBeLessThan(1);
      expect(covariance(a, apart)).toBe(0);
      expect(uncertainty(subtract(a, b))).toBeLessThan(uncertainty(subtract(a, apart)));
      const gain = [...a.parts.keys()].find((name) => name.endsWith("/gain")) ?? "";
      expect(a.parts.get(gain)).toBeGreaterThan(0);
      // The gain is a share of what is shown, leads apart, so it leaves a ratio.
      const ratio = divide(a, b);
      const left = Math.abs(ratio.parts.get(gain) ?? 0);
      expect(left).toBeLessThan(0.01 * (scale(a, 1 / a.value).parts.get(gain) ?? 0) * ratio.value);
    }),
    { seed, numRuns: 100 },
  );
});
