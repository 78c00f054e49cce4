import { describe, expect, test } from "vitest";
import { askDeck, readDeck } from "../../src/core/circuit/index.ts";
import { askEvidence } from "../../src/core/suspect/index.ts";
import { fuzz } from "./run-fuzz.ts";

const DECK = `a heater behind a cut-out
vmains l 0 0 ac 230
rline l l1 0.2
.subckt contact a b
rk a b 10m
ck a b 100p
.ends
x1 l1 h contact
rheat h n 26.45
+
lcoil n n2 1m
rneut n2 0 0.2
i1 0 h dc 1m
* a comment
.op
.end`;

const ASK = JSON.stringify(
  {
    hertz: 50,
    questions: [
      { id: "q1", set: { rheat: 30 }, faults: [{ series: "rline", ohms: 5 }], volts: ["h", "n"] },
      { id: "q2", remove: ["vmains"], faults: [{ leak: "h", to: "0", ohms: 1e5 }], ohms: ["h", "n"] },
      { id: "q3", dc: true, volts: ["l", "0"], partials: true },
      { id: "q4", amps: "rheat" },
      { id: "q5", faults: [{ open: "rneut" }, { short: "rheat" }, { scale: "rline", by: 2 }], watts: "rheat" },
    ],
  },
  null,
  1,
);

const EVIDENCE = JSON.stringify(
  {
    format: "faultwright-evidence/1",
    hypotheses: [
      { id: "h0", logPrior: -1.6 },
      { id: "h1", logPrior: -0.2 },
    ],
    readings: [
      { kind: "value", y: 26.1, mean: { h0: 26.5, h1: 40 }, sigma: { h0: 0.4, h1: 2 } },
      { kind: "above", limit: 4e7, mean: { h0: 1, h1: 5e7 }, sigma: { h0: 0.4, h1: 1e6 } },
      { kind: "interval", lo: 25.9, hi: 26.3, mean: { h0: 26, h1: 27 }, sigma: { h0: 1, h1: 1 } },
    ],
  },
  null,
  1,
);

/** JSON of a mutated text; a text that is no JSON goes in as it stands. */
function json(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return text;
  }
}

describe("the plain doors, given mutated files, answer or refuse and never throw", () => {
  test("800 decks, each asked what the whole one is asked", () => {
    const { taken, refused } = fuzz(new Map([["deck.cir", DECK]]), 800, 11, (text, file) => {
      const deck = readDeck(text, file);
      if (!deck.ok) return deck.issues;
      const answers = askDeck(text, JSON.parse(ASK), { deck: file, ask: "ask.json" });
      return answers.ok ? undefined : answers.issues;
    });
    expect(Math.min(taken, refused)).toBeGreaterThan(50);
  });

  test("800 lists of questions; what is answered is a number or open with a reason", () => {
    const { refused } = fuzz(new Map([["ask.json", ASK]]), 800, 12, (text, file) => {
      const answers = askDeck(DECK, json(text), { deck: "deck.cir", ask: file });
      if (!answers.ok) return answers.issues;
      for (const answer of answers.value) {
        const isGood = "because" in answer ? answer.because !== "" : Number.isFinite(answer.value);
        expect(isGood, JSON.stringify(answer)).toBe(true);
      }
      return undefined;
    });
    expect(refused).toBeGreaterThan(50);
  });

  test("800 evidence files; odds make 1", () => {
    const { taken, refused } = fuzz(new Map([["evidence.json", EVIDENCE]]), 800, 13, (text) => {
      const answer = askEvidence(json(text));
      if (!answer.ok) return answer.issues;
      const sum = Object.values(answer.value.posterior).reduce((total, p) => total + p, 0);
      expect(sum).toBeCloseTo(1, 12);
      return undefined;
    });
    expect(Math.min(taken, refused)).toBeGreaterThan(50);
  });
});
