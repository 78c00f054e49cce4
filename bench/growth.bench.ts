// npx tsx bench/growth.bench.ts — how cost grows: branches of more and more parts (so more ways to fail and more readings),
// and jobs of more and more readings. Ratios to the smallest, taken in one run; growth is the power of the size.
import { modesOf } from "../src/core/fault/index.ts";
import { type Probe, usualProbes } from "../src/core/predict/index.ts";
import { openRunner } from "../src/core/run/index.ts";
import type { Observation } from "../src/core/sign/index.ts";
import type { ForeseenCase } from "../src/core/suspect/index.ts";
import { branchCase, handheld } from "../test/machines/shipped-case.ts";

const ROUNDS = 9;
const meter = handheld();

function best(work: () => void): number {
  let least = Number.POSITIVE_INFINITY;
  for (let round = 0; round < ROUNDS; round++) {
    const begun = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(begun);
    least = Math.min(least, (user + system) / 1e3);
  }
  return least;
}

/** A made-up branch: switches and cut-outs between plug and heater. */
function branchOf(parts: number): string {
  const middle = Array.from({ length: parts }, (_, n) => (n % 2 === 0 ? "switch" : "cutout"));
  return ["plug", "cord", ...middle, "heater:2kW", "relay"].join(",");
}

function deadProbes(the: ForeseenCase): readonly Probe[] {
  return usualProbes(the.candidates[0].machine)
    .map(({ probe }) => probe)
    .filter(({ quantity, state }) => quantity === "ohms" && state.kind === "dead");
}

const readingAt = (probe: Probe, value: number): Observation => ({
  kind: "reading",
  probe,
  meter,
  leads: "nulled",
  shown: { kind: "value", value },
});

interface Row {
  readonly size: number;
  readonly costs: Readonly<Record<string, number>>;
  readonly about: string;
}

/** Costs as ratios to the first row's, and the power of the size that the last row's is. */
function print(of: string, rows: readonly Row[]): void {
  const [first] = rows;
  const last = rows[rows.length - 1];
  const names = Object.keys(first.costs);
  console.log(`\n${of}: smallest ${names.map((name) => `${name} ${first.costs[name].toFixed(2)} ms`).join(", ")}`);
  for (const { size, costs, about } of rows) {
    const ratios = names.map((name) => `${name} ×${(costs[name] / first.costs[name]).toFixed(1)}`);
    console.log(`  ${about}, size ×${(size / first.size).toFixed(1)}: ${ratios.join(", ")}`);
  }
  const power = (name: string): string =>
    (Math.log(last.costs[name] / first.costs[name]) / Math.log(last.size / first.size)).toFixed(1);
  console.log(`  grows as the size to the power of: ${names.map((name) => `${name} ${power(name)}`).join(", ")}`);
}

/** The first is measured twice: what it compiles and warms is no growth. */
const [, ...grown] = [4, 4, 8, 16, 32].map((parts): Row => {
  const the = branchCase(branchOf(parts));
  const [{ machine }] = the.candidates;
  const modes = modesOf(machine);
  const probe = deadProbes(the)[0];
  let value = 10;
  return {
    size: modes.length,
    about: `${machine.parts.length} parts, ${modes.length} modes, ${the.hypotheses.length} hypotheses with pairs`,
    costs: {
      "all modes run": best(() => {
        // One that has run a fault keeps its run.
        const runner = openRunner(machine);
        for (const { severities } of modes) runner.run(severities[0].effects);
      }),
      "one more reading": best(() => the.update([readingAt(probe, value++)])),
    },
  };
});
print("parts and modes", grown);

const the = branchCase(branchOf(16));
const probes = deadProbes(the);
let value = 10;
// Each place is foreseen once before.
the.update(probes.slice(0, 16).map((probe) => readingAt(probe, value)));
print(
  "readings of a job",
  [2, 4, 8, 16].map((count): Row => {
    const some = probes.slice(0, count);
    return {
      size: count,
      about: `${some.length} readings`,
      costs: { "odds of the whole job": best(() => the.update(some.map((probe) => readingAt(probe, value++)))) },
    };
  }),
);
