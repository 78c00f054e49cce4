import { expect, test } from "vitest";
import { type Meter, prepareReading } from "../meter/index.ts";
import type { Prediction } from "../predict/index.ts";
import { bandChances, partitionOf } from "./partition.ts";

const meter: Meter = {
  id: "test",
  says: "test meter",
  ranges: [{ quantity: "volts", top: 600, resolution: 0.1, shareOfReading: 0.01, counts: 3 }],
  inputOhms: 1e7,
  leadOhms: { lo: 0, hi: 0 },
  nulledOhms: 0,
  source: "invented",
};
const setUp = { meter, quantity: "volts", leads: "nulled" } as const;
const at = (mean: number, sigma: number): Prediction => ({ terms: [{ kind: "value", weight: 1, mean, sigma }] });

// The plan's bands and the odds must come out of one likelihood, what the leads pick up included.
test("bands of live volts hold what the readings in them hold: of 0, 1 and 230 V, to 2 in 100", () => {
  const dead = at(0, 0.01);
  const faint = at(1, 0.02);
  const alive = at(230, 4);
  const partition = partitionOf(
    [dead, faint, alive].map((prediction, n) => ({ weight: 1, prediction, of: new Map([[`${n}`, 1]]) })),
    setUp,
  );
  expect(partition.bands).toHaveLength(3);
  for (const prediction of [dead, faint, alive]) {
    const [term] = prediction.terms;
    const sums = partition.bands.map(() => 0);
    for (let tenths = -30; tenths < 3000; tenths++) {
      const value = tenths / 10;
      const band = partition.bands.findIndex(({ low, high }) => value > low && value <= high);
      const chance = prepareReading({ kind: "value", value }, setUp);
      if (term.kind === "value") sums[band] += Math.exp(chance.ofValue(term.mean, term.sigma));
    }
    const bands = bandChances(partition, prediction);
    for (const [b, sum] of sums.entries()) expect(Math.abs(bands[b] - sum)).toBeLessThan(0.02);
  }
});

test("picked-up tenths of a volt put a dead wire past a cut half a volt up in 5 to 50 of 1,000 readings", () => {
  const partition = partitionOf(
    [0, 1.2].map((mean) => ({ weight: 1, prediction: at(mean, 0.01), of: new Map([[`${mean}`, 1]]) })),
    setUp,
  );
  const [, above] = bandChances(partition, at(0, 0.01));
  expect(above).toBeGreaterThan(0.005);
  expect(above).toBeLessThan(0.05);
});

test("of six severities of one fault and a good part beside them, the good part has a band of its own", () => {
  const severities = [2, 10, 50, 100, 150, 180].map((mean) => ({ prediction: at(mean, 0.1), weight: 1, of: "weak" }));
  const good = { prediction: at(230, 1), weight: 0.5, of: "another" };
  const partition = partitionOf(
    [...severities, good].map(({ prediction, weight, of }) => ({ prediction, weight, of: new Map([[of, weight]]) })),
    setUp,
  );
  expect(partition.bands.at(-1)?.from).toBeGreaterThan(181);
});
