import { expect, test } from "vitest";
import { network, type TestElement } from "../../../test/oracle/network.ts";
import { rowOf, voltsTable } from "./fault-table.ts";

// A heater between two contacts, with a snubber across one of them, leaks to the chassis, and mains.
const elements: TestElement[] = [
  [1, 2, "R", 0.02],
  [2, 3, "R", 26],
  [3, 4, "R", 0.02],
  [4, 0, "R", 0.25],
  [1, 2, "C", 22e-9],
  [3, 5, "R", 1e9],
  [5, 0, "R", 10],
  [1, 0, "V", 230],
];
const faults = [
  { element: 0, re: 0, im: 0 },
  { element: 1, re: 0, im: 0 },
  { element: 1, re: Number.POSITIVE_INFINITY, im: 0 },
  { element: 2, re: 1 / 5.02, im: 0 },
  { element: 3, re: 0, im: 0 },
];
const probes = [
  { a: 1, b: 2 },
  { a: 2, b: 3 },
  { a: 3, b: 0 },
  { a: 4, b: 5 },
];

test("a table of 5 faults has 16 rows: healthy, each fault, each pair; two faults of one element have no numbers", () => {
  expect([rowOf(5), rowOf(5, 0), rowOf(5, 4), rowOf(5, 0, 1), rowOf(5, 0, 4), rowOf(5, 1, 2), rowOf(5, 3, 4)]).toEqual([
    0, 1, 5, 6, 9, 10, 15,
  ]);
  const table = voltsTable(network(elements).ac(), faults, probes, 1e7);
  expect(table.values.length).toBe(16 * 4);
  const same = rowOf(5, 1, 2) * 4;
  expect([...table.values.subarray(same, same + 4)].every(Number.isNaN)).toBe(true);
});

for (const inputOhms of [1e7, Number.POSITIVE_INFINITY])
  test(`every row into ${inputOhms} Ω is what a circuit with those faults shows, to the last digit`, () => {
    const table = voltsTable(network(elements).ac(), faults, probes, inputOhms);
    const built = network(elements);
    for (let first = -1; first < 5; first++)
      for (let second = first < 0 ? -1 : first + 1; second < (first < 0 ? 0 : 5); second++) {
        const chosen = [first, second].filter((f) => f >= 0).map((f) => faults[f]);
        if (chosen.length === 2 && chosen[0].element === chosen[1].element) continue;
        const solver = built.ac();
        for (const { element, re, im } of chosen) {
          solver.re[element] = re;
          solver.im[element] = im;
        }
        solver.solve();
        probes.forEach(({ a, b }, p) => {
          const shown = Number.isFinite(inputOhms) ? solver.metered(a, b, inputOhms).volts : solver.magnitude(a, b);
          expect(table.values[rowOf(5, first, second) * 4 + p]).toBe(shown);
        });
      }
  });
