import { describe, expect, it } from "vitest";
import { askEvidence, type EvidenceAnswer } from "./evidence.ts";

const hypotheses = [
  { id: "good", logPrior: -1.5 },
  { id: "worn", logPrior: -0.25 },
  { id: "open", logPrior: -3 },
];
const mean = { good: 26.5, worn: 31, open: 40.25 };
const sigma = { good: 0.4, worn: 1.5, open: 0.75 };

function ask(readings: readonly unknown[], of: readonly unknown[] = hypotheses): EvidenceAnswer {
  const answer = askEvidence({ format: "faultwright-evidence/1", hypotheses: of, readings });
  if (!answer.ok) throw new Error(JSON.stringify(answer.issues));
  return answer.value;
}

function relative(found: number, truth: number): number {
  return Math.abs(found / truth - 1);
}

// Truths worked out with mpmath 1.3.0 at 120 digits from the definitions (erfc, exp, log).
describe("odds from readings, against 120 digits", () => {
  it("weighs a value, an above, a below and an interval to 1e-12", () => {
    const answer = ask([
      { kind: "value", y: 26.1, mean, sigma },
      { kind: "above", limit: 24, mean, sigma },
      { kind: "below", limit: 30, mean, sigma },
      { kind: "interval", lo: 25.9, hi: 26.3, mean, sigma },
    ]);
    expect(relative(answer.logEvidence, -3.473001241240583)).toBeLessThan(1e-13);
    expect(answer.posterior.good).toBeCloseTo(0.9999959289943433, 13);
    expect(answer.posterior.worn).toBeCloseTo(4.07100565671453e-6, 15);
  });

  it("keeps its digits 40 and 90 sigmas out, where plain probabilities are 0", () => {
    const tails = ask([
      { kind: "above", limit: 60, mean, sigma },
      { kind: "below", limit: 2, mean, sigma },
    ]);
    expect(relative(tails.logEvidence, -381.8450567644635)).toBeLessThan(1e-14);
    expect(
      relative(ask([{ kind: "interval", lo: 90, hi: 900, mean, sigma }]).logEvidence, -778.4476367779495),
    ).toBeLessThan(1e-14);
  });

  it("keeps its digits for an interval 1e-9 wide, where two tails would cancel", () => {
    const answer = ask([{ kind: "interval", lo: 90, hi: 90.000000001, mean, sigma }]);
    expect(relative(answer.logEvidence, -795.9036464400407)).toBeLessThan(1e-13);
  });

  it("keeps the relative digits of a log evidence of -7.5e-33", () => {
    const answer = ask([
      { kind: "below", limit: 50, mean, sigma: { good: 2, worn: 1.5, open: 0.75 } },
      { kind: "above", limit: 10, mean, sigma },
    ]);
    expect(relative(answer.logEvidence, -7.491504340950151e-33)).toBeLessThan(1e-12);
  });
});

// Whole numbers scaled by 2^200 hold these log chances exactly to 60 digits: no double is used before the last step.
describe("odds where every product underflows, against whole-number arithmetic", () => {
  const SCALE = 2n ** 200n;
  const fixed = (x: number): bigint => BigInt(x * 2 ** 40) * 2n ** 160n;
  const expFixed = (x: bigint): bigint => {
    // exp(x) = exp(x / 2^20)^(2^20)
    const small = x / 2n ** 20n;
    let sum = SCALE;
    let term = SCALE;
    for (let k = 1n; k < 40n; k++) {
      term = (term * small) / (SCALE * k);
      sum += term;
    }
    for (let k = 0; k < 20; k++) sum = (sum * sum) / SCALE;
    return sum;
  };

  it.each([1, 40, 2000])("sets odds to 1e-12 after %i readings of a million sigmas each", (count) => {
    const y = 1048576.25;
    const means = { near: 0.25, far: 0.25 - 2 ** -20 };
    const readings = Array.from({ length: count }, () => ({
      kind: "value",
      y,
      mean: means,
      sigma: { near: 1, far: 1 },
    }));
    const answer = ask(readings, [
      { id: "near", logPrior: 0 },
      { id: "far", logPrior: 0 },
    ]);
    const halfSquare = (m: number): bigint => ((fixed(y) - fixed(m)) ** 2n / SCALE / 2n) * BigInt(count);
    const ratio = expFixed(halfSquare(means.near) - halfSquare(means.far));
    const truth = Number((ratio * 2n ** 60n) / (SCALE + ratio)) / 2 ** 60;
    expect(Math.abs(answer.posterior.far - truth)).toBeLessThan(1e-12);
    expect(answer.logEvidence).toBeLessThan(-5e11 * count);
  });
});

describe("what a table of evidence must hold", () => {
  const refused = (change: (table: { [key: string]: unknown }) => void): readonly string[] => {
    const table = {
      format: "faultwright-evidence/1",
      hypotheses,
      readings: [{ kind: "value", y: 26, mean, sigma }],
    };
    change(table);
    const answer = askEvidence(table);
    return answer.ok ? [] : answer.issues.map((issue) => `${issue.at.join(".")}: ${issue.code}`);
  };

  it.each<[string, (table: { [key: string]: unknown }) => void, string]>([
    [
      "another format",
      (t) => {
        t.format = "x/1";
      },
      "format: evidence.format",
    ],
    [
      "no hypotheses",
      (t) => {
        t.hypotheses = [];
        t.readings = [];
      },
      "hypotheses: evidence.hypotheses",
    ],
    [
      "a prior that is no number",
      (t) => {
        t.hypotheses = [{ id: "a", logPrior: Number.NaN }];
        t.readings = [];
      },
      "hypotheses.0.logPrior: evidence.number",
    ],
    [
      "one name twice",
      (t) => {
        t.hypotheses = [...hypotheses, { id: "good", logPrior: 0 }];
      },
      "hypotheses.3.id: evidence.id",
    ],
    [
      "a negative sigma",
      (t) => {
        t.readings = [{ kind: "value", y: 1, mean, sigma: { ...sigma, worn: -1 } }];
      },
      "readings.0.sigma.worn: evidence.sigma",
    ],
    [
      "a missing hypothesis",
      (t) => {
        t.readings = [{ kind: "value", y: 1, mean: { good: 1, worn: 1 }, sigma }];
      },
      "readings.0.mean.open: evidence.number",
    ],
    [
      "an interval upside down",
      (t) => {
        t.readings = [{ kind: "interval", lo: 2, hi: 1, mean, sigma }];
      },
      "readings.0.hi: evidence.interval",
    ],
    [
      "an unknown kind",
      (t) => {
        t.readings = [{ kind: "about", mean, sigma }];
      },
      "readings.0.kind: evidence.kind",
    ],
    [
      "a list in place of the whole",
      (t) => {
        t.readings = {};
      },
      "readings: evidence.shape",
    ],
  ])("refuses %s and names the field", (_, change, expected) => {
    expect(refused(change)).toContain(expected);
  });

  it("finds all 3 faults of one table in one go", () => {
    expect(
      refused((t) => {
        t.format = 1;
        t.readings = [{ kind: "value", y: "26", mean, sigma: { ...sigma, good: 0 } }];
      }),
    ).toHaveLength(3);
  });

  it("does not depend on the scale of the priors: adding 1000 to each changes nothing", () => {
    const readings = [{ kind: "value", y: 27, mean, sigma }];
    const shifted = hypotheses.map((h) => ({ ...h, logPrior: h.logPrior + 1000 }));
    expect(relative(ask(readings, shifted).logEvidence, ask(readings).logEvidence)).toBeLessThan(1e-12);
  });
});
