// npx tsx bench/suspect.bench.ts [family] — odds: opening a case on a family, the first signs, and one more reading with all pairs
// of faults in play; then the tables of outcomes that planning asks for. Processor time, since others may use the machine.
import { usualProbes } from "../src/core/predict/index.ts";
import type { Observation } from "../src/core/sign/index.ts";
import { liveHypotheses } from "../src/core/suspect/index.ts";
import { handheld, shippedCase } from "../test/machines/shipped-case.ts";
import { askedFamily } from "./family.ts";
import { promise } from "./promise.ts";

const promiseMs = 16;
const { name, answers } = askedFamily();

function cpuMs(work: () => void): number {
  const begun = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(begun);
  return (user + system) / 1e3;
}

function median(numbers: readonly number[]): number {
  return numbers.toSorted((a, b) => a - b)[numbers.length >> 1];
}

function say(what: string, figure: string): void {
  console.log(`${what.padEnd(70)} ${figure}`);
}

const meter = handheld();

/** All pairs of all severities; by itself a case keeps the 30,000 likeliest, 98 of 100 of the odds of pairs. */
const allPairs = { pairsAtMost: Number.POSITIVE_INFINITY };
let opened = shippedCase(name, answers, allPairs);
say(
  "open a case, all slots answered",
  `${cpuMs(() => {
    opened = shippedCase(name, answers, allPairs);
  }).toFixed(0)} ms`,
);
const count = (kind: string): number => opened.hypotheses.filter((entry) => entry.kind === kind).length;
say(
  "hypotheses",
  `${opened.hypotheses.length}: ${count("single")} single, ${count("linked pair")} linked pairs, ${count("pair")} pairs`,
);
const [{ machine }] = opened.candidates;
/** Two signs that the circuit answers, so that every fault is run for them. */
const complaint = machine.signs
  .filter(({ rule }) => rule.kind !== "table")
  .slice(0, 2)
  .map(({ id, answers: [, other = ""] }): Observation => ({ kind: "sign", sign: id, answer: other, witness: "told" }));
say(
  "two told signs, cold: every fault through its programme",
  `${cpuMs(() => opened.update(complaint)).toFixed(0)} ms`,
);

const dead = usualProbes(machine)
  .map(({ probe }) => probe)
  .filter(({ quantity, state }) => quantity === "ohms" && state.kind === "dead");
const readingAt = (probe: (typeof dead)[number], value: number): Observation => ({
  kind: "reading",
  probe,
  meter,
  leads: "nulled",
  shown: { kind: "value", value },
});
const first = dead.map((probe) => cpuMs(() => opened.update([...complaint, readingAt(probe, 26.4)])));
say(`one more reading, each of ${dead.length} probes for the first time`, `median ${median(first).toFixed(1)} ms`);
const again = dead.map((probe, p) => cpuMs(() => opened.update([...complaint, readingAt(probe, 20 + p)])));
say("one more reading, warm", `median ${median(again).toFixed(1)} ms (promised ${promiseMs} ms)`);

// Right before fast: the odds are those of adding up all hypotheses one by one.
const seen = [...complaint, readingAt(dead[dead.length >> 1], 26.4)];
const belief = opened.update(seen);
const chances = seen.map((observation) => opened.logLikelihood(observation));
const logs = opened.hypotheses.map(({ logPrior }, h) => chances.reduce((sum, chance) => sum + chance[h], logPrior));
const total = logs.reduce((sum, log) => sum + Math.exp(log), 0);
const worst = logs.reduce(
  (most, log, h) => Math.max(most, Math.abs(Math.exp(log) / total - Math.exp(belief.logPosterior[h]))),
  0,
);
if (!(worst < 1e-12)) throw new Error(`odds differ by ${worst}`);

const live = liveHypotheses(opened.update(complaint));
const tables = () => {
  for (const probe of dead) opened.outcomes(readingAt(probe, 0), live);
};
say(
  `tables of outcomes of ${dead.length} probes for ${live.hypotheses.length} living hypotheses, cold`,
  `${cpuMs(tables).toFixed(0)} ms`,
);
const warm = median(Array.from({ length: 5 }, () => cpuMs(tables)));
say("the same, warm", `${warm.toFixed(0)} ms, ${(warm / dead.length).toFixed(2)} ms a table`);
say("heap", `${(process.memoryUsage().heapUsed / 1e6).toFixed(0)} MB`);
promise({
  what: `${name}: one more reading with all pairs of faults, median`,
  measured: median(again),
  unit: "ms",
  atMost: promiseMs,
});
