import { describe, expect, it } from "vitest";
import { branchCase, handheld, shippedCase } from "../../../test/machines/shipped-case.ts";
import { seeded } from "../chance/index.ts";
import { shownBy } from "../meter/index.ts";
import { type Prediction, usualProbes } from "../predict/index.ts";
import type { Observation } from "../sign/index.ts";
import type { Belief } from "./case.ts";
import { legs } from "./legs.ts";
import type { ForeseenCase } from "./make-case.ts";

const ANSWERS = {
  air: "vented",
  stages: "one",
  "motor-watch": "running contact in the heater wire",
  control: "board with two heater poles",
  moisture: "bars in the drum",
};

const told = (sign: string, answer: string): Observation => ({ kind: "sign", sign, answer, witness: "told" });
const cold = [told("drum turns", "yes"), told("heat", "cold")];

function partOdds(belief: Belief): ReadonlyMap<string, number> {
  return new Map(belief.parts.map(({ part, p }) => [part, p]));
}

/** The largest difference between two lists of parts. */
function farthest(a: Belief, b: Belief): number {
  const other = partOdds(b);
  return Math.max(...[...partOdds(a)].map(([part, p]) => Math.abs(p - (other.get(part) ?? 0))));
}

describe("a slot left open", () => {
  it("asked later gives the list of a slot answered before, to 2 in 100 for every part", () => {
    const before = shippedCase("tumble-dryer", { ...ANSWERS, protectors: "self-resetting and one-shot" }).update(cold);
    const open = shippedCase("tumble-dryer", ANSWERS);
    expect(open.candidates.length).toBe(3);
    const after = open.update([
      ...cold,
      { kind: "answer", slot: "protectors", variant: "self-resetting and one-shot" },
    ]);
    expect(farthest(before, after)).toBeLessThan(0.02);
  });

  it("not answered keeps a heater's odds within 3 in 100, whichever protectors there are", () => {
    const open = shippedCase("tumble-dryer", ANSWERS).update(cold);
    const answered = shippedCase("tumble-dryer", { ...ANSWERS, protectors: "two self-resetting" }).update(cold);
    expect(Math.abs((partOdds(open).get("heater") ?? 0) - (partOdds(answered).get("heater") ?? 0))).toBeLessThan(0.03);
  });

  it("offers its variants as outcomes whose chances sum to 1", () => {
    const open = shippedCase("tumble-dryer", ANSWERS);
    const table = open.outcomes({ kind: "answer", slot: "protectors", variant: "" });
    expect(table.outcomes).toHaveLength(3);
    for (const h of [0, 10, 100]) expect(table.chance.reduce((sum, chances) => sum + chances[h], 0)).toBeCloseTo(1, 9);
  });
});

describe("a branch of plug, cord, switch, cut-out, heater and relay", () => {
  const opened = branchCase("plug,cord,switch,cutout,heater:2kW,relay");
  const [{ machine, modes }] = opened.candidates;
  const probes = usualProbes(machine)
    .map(({ probe }) => probe)
    .filter(({ quantity, state }) => quantity === "ohms" && state.kind === "dead");

  it.each(modes.slice(0, 40).map((mode, m) => [mode.id, m] as const))(
    "never loses %s under 8 honest readings",
    (id, m) => {
      const random = seeded(`honest ${m}`);
      const truth = opened.hypotheses.findIndex(({ kind, modes: own }) => kind === "single" && own[0].id === id);
      const seen = Array.from({ length: 8 }, () =>
        honest(opened, truth, probes[Math.floor(random.uniform() * probes.length)], random),
      );
      const belief = opened.update(seen);
      expect(belief.modes.find(({ mode }) => mode === id)?.p ?? 0).toBeGreaterThan(1e-4);
    },
  );

  it("opens with every hypothesis named once and odds that sum to 1", () => {
    expect(new Set(opened.hypotheses.map(({ id }) => id)).size).toBe(opened.hypotheses.length);
    const total = opened.hypotheses.reduce((sum, { logPrior }) => sum + Math.exp(logPrior), 0);
    expect(total).toBeCloseTo(1, 9);
  });
});

/** What the meter shows when the truth is one hypothesis: drawn from its prediction, and rounded. */
function honest(
  opened: ForeseenCase,
  truth: number,
  probe: (Observation & { kind: "reading" })["probe"],
  random: ReturnType<typeof seeded>,
): Observation {
  const blank: Observation = {
    kind: "reading",
    probe,
    meter: handheld(),
    leads: "nulled",
    shown: { kind: "over limit" },
  };
  const value = drawFrom(opened.prediction(truth, blank) ?? { terms: [] }, random);
  return { ...blank, shown: Number.isFinite(value) ? shownBy(handheld(), "ohms", Math.max(0, value)) : blank.shown };
}

function drawFrom({ terms }: Prediction, random: ReturnType<typeof seeded>): number {
  let left = random.uniform();
  for (const term of terms) {
    left -= term.weight;
    if (left > 0) continue;
    return term.kind === "open" ? Number.POSITIVE_INFINITY : term.mean + term.sigma * random.normal();
  }
  return Number.POSITIVE_INFINITY;
}

describe("the three legs of a board", () => {
  it("are not all seen on a complaint alone", () => {
    const opened = shippedCase("tumble-dryer", { ...ANSWERS, protectors: "self-resetting and one-shot" });
    const belief = opened.update(cold);
    const [board] = legs(opened, cold, belief);
    expect(board.assembly).toBe("control");
    expect(board.proved).toBe(false);
    expect(board.legs.find(({ leg }) => leg === "output missing")?.seen).toBe(false);
  });
});
