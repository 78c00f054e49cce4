import { describe, expect, test } from "vitest";
import { betaQuantile } from "./beta.ts";
import { clopperPearson } from "./binomial.ts";
import { gammaQuantile } from "./gamma.ts";
import { operationsToShow, sequentialBounds } from "./sequential.ts";

describe("enough operations, or go on", () => {
  // Source: NIST/SEMATECH e-Handbook 6.2.6 (parameters and table as told by the documentation of the Python package
  // reliability, "Sequential sampling"); 1 % against 10 %, errors 5 % and 10 %.
  const aim = { good: 0.01, bad: 0.1, falseAlarm: 0.05, miss: 0.1 };

  test.each([
    [1, undefined, undefined],
    [2, undefined, 2],
    [19, undefined, 2],
    [20, undefined, 3],
    [23, undefined, 3],
    [24, 0, 3],
    [45, 0, 3],
    [46, 0, 4],
    [48, 0, 4],
    [49, 1, 4],
    [70, 1, 4],
    [71, 1, 5],
    [73, 1, 5],
    [74, 2, 5],
  ])("after %i operations: take at %s failures, refuse at %s", (n, accept, reject) => {
    const bounds = sequentialBounds(aim, n);
    expect([bounds.accept, bounds.reject]).toEqual([accept, reject]);
  });

  test("failures at the 14th, 32nd and 38th of a series refuse it at the third, not before", () => {
    const failedAt = [14, 32, 38];
    const decided = Array.from({ length: 38 }, (_, n) => n + 1).find((n) => {
      const bad = failedAt.filter((at) => at <= n).length;
      const { accept = -1, reject = Number.POSITIVE_INFINITY } = sequentialBounds(aim, n);
      return bad >= reject || bad <= accept;
    });
    expect(decided).toBe(38);
  });

  // Worked out: ln(β/(1 − α)) / ln((1 − p1)/(1 − p0)) is 13.8 and 6.7.
  test.each([
    [0.01, 0.2, 0.05, 0.05, 14],
    [0.02, 0.3, 0.05, 0.1, 7],
  ])("%f against %f, errors %f and %f: %i good ones in a row are enough", (good, bad, falseAlarm, miss, enough) => {
    const first = Array.from({ length: 50 }, (_, n) => n + 1).find(
      (n) => sequentialBounds({ good, bad, falseAlarm, miss }, n).accept !== undefined,
    );
    expect(first).toBe(enough);
  });
});

describe("operations that show a reliability", () => {
  // 2995 as printed in the documentation of the Python package reliability, "Sample size required for no failures"; the
  // others worked out as ceil(ln(1 − C)/ln R).
  test.each([
    [0.9, 0.8, 11],
    [0.95, 0.8, 14],
    [0.9, 0.9, 22],
    [0.95, 0.9, 29],
    [0.9, 0.95, 45],
    [0.95, 0.95, 59],
    [0.99, 0.95, 90],
    [0.9, 0.99, 230],
    [0.95, 0.99, 299],
    [0.99, 0.99, 459],
    [0.95, 0.999, 2995],
  ])("confidence %f, reliability %f, no failure: %i", (confidence, reliability, n) => {
    expect(operationsToShow(reliability, confidence)).toBe(n);
  });

  // Worked out from the binomial distribution.
  test.each([
    [0.95, 0.9, [29, 46, 61, 76]],
    [0.95, 0.95, [59, 93, 124, 153]],
    [0.9, 0.9, [22, 38, 52, 65]],
  ])("confidence %f, reliability %f, none to three failures: %j", (confidence, reliability, all) => {
    expect(all.map((_, failures) => operationsToShow(reliability, confidence, failures))).toEqual(all);
  });
});

describe("bounds after k failures in n", () => {
  // 1 − 0.05^(1/n), worked out; 100, 500 and 1500 also told as 3 %, 0.6 % and 1/500 (rule of three).
  test.each([
    [5, 0.4507],
    [10, 0.2589],
    [20, 0.1391],
    [59, 0.0495],
    [100, 0.02951],
    [299, 0.00997],
    [500, 0.00597],
    [1500, 0.001995],
  ])("none of %i: at most %f, one-sided 95 %%", (n, most) => {
    expect(clopperPearson(0, n, 0.9).hi).toBeCloseTo(most, String(most).length - 2);
  });

  // Source: success run theorem with an even prior, codingace.net/dev/success_run_theorem.html, recomputed.
  test.each([
    [10, 0.9, 0.811131],
    [29, 0.95, 0.904966],
    [59, 0.95, 0.951297],
    [99, 0.99, 0.954993],
  ])("%i good, even prior, confidence %f: reliability %f", (n, confidence, reliability) => {
    expect(betaQuantile(1 - confidence, n + 1, 1).x).toBeCloseTo(reliability, 6);
  });

  // Source: documentation of the Python package reliability, "Reliability test planner".
  test.each([
    [19_520, 7, 0.9, 1658.3249],
    [10_000, 6, 0.8, 1101.8816],
  ])("%i hours with %i failures, one-sided %f: at least %f between failures", (hours, failures, confidence, mean) => {
    expect(hours / gammaQuantile(confidence, failures + 1)).toBeCloseTo(mean, 3);
  });
});
