import { expect, test } from "vitest";
import type { Mode } from "../fault/index.ts";
import type { Belief, Hypothesis } from "../suspect/index.ts";
import { inPlay } from "./in-play.ts";

function hypothesis(candidate: number, kind: Hypothesis["kind"], ...modes: readonly string[]): Hypothesis {
  return {
    id: `${candidate} ${modes.join(" & ")}`,
    kind,
    candidate,
    modes: modes.map((id) => ({ id }) as Mode),
    severities: modes.map(() => 0),
    failsOn: 1,
    logPrior: 0,
  };
}

const believing = (odds: readonly number[]): Belief => ({ logPosterior: Float64Array.from(odds, Math.log) }) as Belief;

test("the same fault on machines beyond the likeliest four counts on one of these; none of the odds is lost", () => {
  const machines = [0, 1, 2, 3, 4, 5];
  const all = machines.flatMap((c) => [hypothesis(c, "single", "heater/open"), hypothesis(c, "single", "relay/open")]);
  const odds = machines.flatMap((c) => [0.12 - 0.01 * c, 0.08 - 0.01 * c]);
  const sum = odds.reduce((total, p) => total + p, 0);
  const live = inPlay(all, believing(odds), 80, 1);
  expect([...live.hypotheses].map((h) => all[h]?.candidate)).toEqual([0, 0, 1, 1, 2, 2, 3, 3]);
  expect(live.weights.reduce((total, w) => total + w, 0)).toBeCloseTo(1, 12);
  // 0.12 of its own, 0.08 and 0.07 of the two machines left out
  expect(live.weights[0]).toBeCloseTo((0.12 + 0.08 + 0.07) / sum, 12);
});

test("a light pair of unrelated faults counts with the likelier of the two; a linked pair stands by itself", () => {
  const all = [
    hypothesis(0, "single", "belt/torn"),
    hypothesis(0, "single", "lamp/dead"),
    hypothesis(0, "pair", "lamp/dead", "belt/torn"),
    hypothesis(0, "linked pair", "lint", "fuse/blown"),
  ];
  const live = inPlay(all, believing([0.7, 0.292, 0.004, 0.004]), 80, 1);
  expect([...live.hypotheses]).toEqual([0, 1, 3]);
  expect(live.weights[0]).toBeCloseTo(0.704, 12);
});
