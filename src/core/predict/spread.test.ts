import { describe, expect, it } from "vitest";
import { quadrature } from "../chance/index.ts";
import type { PredictedTerm } from "./prediction.ts";
import { spreadOver } from "./spread.ts";

interface Point {
  readonly weight: number;
  readonly value: number;
}

function momentsOf(points: readonly Point[]): { mean: number; sigma: number } {
  const whole = points.reduce((sum, { weight }) => sum + weight, 0);
  const mean = points.reduce((sum, { weight, value }) => sum + weight * value, 0) / whole;
  return {
    mean,
    sigma: Math.sqrt(points.reduce((sum, { weight, value }) => sum + weight * (value - mean) ** 2, 0) / whole),
  };
}

function mixture(terms: readonly PredictedTerm[]): { mean: number; sigma: number } {
  const values = terms.flatMap((term) => (term.kind === "value" ? [term] : []));
  const whole = values.reduce((sum, { weight }) => sum + weight, 0);
  const mean = values.reduce((sum, term) => sum + term.weight * term.mean, 0) / whole;
  const square = values.reduce((sum, term) => sum + term.weight * (term.sigma ** 2 + (term.mean - mean) ** 2), 0);
  return { mean, sigma: Math.sqrt(square / whole) };
}

const ptc = quadrature({ nominal: 870, lo: 500, hi: 1500, spread: "range" }, 5);

// Law of total variance: what blurs a point must be taken from the way between the points.
describe("points of a wide number, each blurred toward its neighbours", () => {
  const cases: readonly (readonly [string, readonly Point[]])[] = [
    [
      "watts in a stone of 500 to 1500 ohms",
      ptc.points.map((ohms, i) => ({ weight: ptc.weights[i], value: 230 ** 2 / ohms })),
    ],
    ["two even points", [0.5, 0.5].map((weight, i) => ({ weight, value: i }))],
    ["two points, one with 99 of 100", [0.99, 0.01].map((weight, i) => ({ weight, value: i }))],
    ["a step at the last of five", [0.1, 0.2, 0.4, 0.2, 0.1].map((weight, i) => ({ weight, value: i === 4 ? 5 : 1 }))],
  ];
  it.each(cases)("keep mean and variance of the quadrature within 1e-12: %s", (_, points) => {
    const told = momentsOf(points);
    const blurred = mixture(spreadOver(points, 0.3, 1, 0));
    expect(Math.abs(blurred.mean / told.mean - 1)).toBeLessThan(1e-12);
    expect(Math.abs(blurred.sigma / told.sigma - 1)).toBeLessThan(1e-12);
  });

  it("keep an open point apart, and add what else spreads the reading, in its share of each point", () => {
    const terms = spreadOver(
      [
        { weight: 0.5, value: 10 },
        { weight: 0.25, value: 20 },
        { weight: 0.25, value: Infinity },
      ],
      1,
      10,
      0.1,
    );
    expect(terms[2]).toEqual({ kind: "open", weight: 0.25 });
    const own = (2 * 0.1 ** 2 + 0.2 ** 2) / 3;
    expect(mixture(terms).sigma ** 2).toBeCloseTo(
      momentsOf([
        { weight: 2, value: 10 },
        { weight: 1, value: 20 },
      ]).sigma **
        2 +
        own,
      12,
    );
  });

  it("stand where they are when they show one and the same", () => {
    const terms = spreadOver(
      [0.2, 0.6, 0.2].map((weight) => ({ weight, value: 7 })),
      1,
      7,
      0.5,
    );
    for (const term of terms) expect(term).toMatchObject({ kind: "value", mean: 7, sigma: 0.5 });
  });
});
