import { askDeck, readDeck } from "../../src/core/circuit/index.ts";
import { askPlan } from "../../src/core/search/index.ts";
import { askEvidence } from "../../src/core/suspect/index.ts";
import { drawTable } from "../oracle/plan-tables.ts";
import { type Table, walkPolicy } from "../oracle/plan-walker.ts";
import { type Form, hold, type Judged } from "./form.ts";

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

/** Work of a plan: enough to meet every way of the search, little enough for a hundred thousand. */
const PLAN_WORK = 40;

/** JSON of a mutated text; a text that is no JSON goes in as it stands. */
function json(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return text;
  }
}

function answered(deck: string, ask: unknown): Judged {
  const answers = askDeck(deck, ask, { deck: "deck.cir", ask: "ask.json" });
  if (!answers.ok) return { refused: answers.issues };
  for (const answer of answers.value) {
    if ("because" in answer) hold(answer.because !== "", `open without a reason: ${answer.id}`);
    else if (answer.unit === "Ohm") hold(answer.value >= 0, `${answer.value} ohms`);
  }
  return { told: answers.value };
}

const deck: Form = {
  name: "deck",
  files: new Map([["deck.cir", DECK]]),
  weight: 18,
  judge: (text, file) => {
    const read = readDeck(text, file);
    return read.ok ? answered(text, JSON.parse(ASK)) : { refused: read.issues };
  },
};

const questions: Form = {
  name: "questions",
  files: new Map([["ask.json", ASK]]),
  weight: 18,
  judge: (text) => answered(DECK, json(text)),
};

const evidence: Form = {
  name: "evidence",
  files: new Map([["evidence.json", EVIDENCE]]),
  weight: 20,
  judge: (text) => {
    const answer = askEvidence(json(text));
    if (!answer.ok) return { refused: answer.issues };
    const odds = Object.values(answer.value.posterior);
    const sum = odds.reduce((total, p) => total + p, 0);
    hold(Math.abs(sum - 1) < 1e-12 && odds.every((p) => p >= 0), `odds that make ${sum}`);
    const { posterior, logEvidence } = answer.value;
    return { told: { posterior, logEvidence } };
  },
};

const tables = new Map(
  (["crisp", "half", "misread", "appliance", "noisy"] as const).map((kind, n) => {
    const sizes = { causes: 2 + n, tests: n + 1, outcomes: 2 + (n % 2), groups: n % 3, stop: n % 2 === 0 };
    return [`${kind}.json`, JSON.stringify(drawTable(kind, sizes, n), null, 1)];
  }),
);

const table: Form = {
  name: "table",
  files: tables,
  weight: 16,
  judge: (text) => {
    const read = json(text);
    const answer = askPlan(read, { work: PLAN_WORK, policy: true });
    if (!answer.ok) return { refused: answer.issues };
    const { expectedCost, lowerBound, policy, exact } = answer.value;
    hold(lowerBound >= 0 && lowerBound <= expectedCost * (1 + 1e-12), `bound ${lowerBound} over ${expectedCost}`);
    hold(!exact || expectedCost - lowerBound <= 1e-8 * expectedCost, `exact, yet ${lowerBound} to ${expectedCost}`);
    if (policy === undefined) throw new Error("no policy");
    // What is taken keeps to the form, so the judge of plans can walk it; chances that missed 1 were scaled with a warning.
    if (answer.warnings.length === 0) {
      const walked = walkPolicy(read as Table, policy);
      hold(Math.abs(walked - expectedCost) <= 1e-6 * (1 + walked), `walked ${walked}, claimed ${expectedCost}`);
    }
    return { told: answer.value };
  },
};

/** The engine's plain doors. */
export const doors: readonly Form[] = [deck, questions, evidence, table];
