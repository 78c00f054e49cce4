// Every single mode of one machine, every severity, through its whole programme and all its conditions.
// Run with: npx tsx bench/run.bench.ts [family]
import { type Effect, modesOf } from "../src/core/fault/index.ts";
import { openRunner, type Runner } from "../src/core/run/index.ts";
import { askedFamily } from "./family.ts";
import { promise } from "./promise.ts";

const promiseMs = 1000;

const { name, machine } = askedFamily();
const modes = modesOf(machine);
const severities = modes.flatMap((mode) => mode.severities.map(({ effects }) => effects));
const runner = openRunner(machine);

// Right before fast: runs do not depend on what was run before.
const before = JSON.stringify(severities.slice(0, 40).map((effects) => [...runner.run(effects).pictures.entries()]));
for (const effects of severities) runner.run(effects);
const after = JSON.stringify(severities.slice(0, 40).map((effects) => [...runner.run(effects).pictures.entries()]));
if (before !== after) throw new Error("a run depends on the runs before it");

let pictures = 0;
const median = (values: readonly number[]) => values.toSorted((a, b) => a - b)[values.length >> 1];

/**
 * Median milliseconds of nine rounds over all severities: by the clock, and of the processor. Each round has a runner of its
 * own, since one that has run a fault keeps its run for the faults that are alike.
 */
function timed(work: (runner: Runner, effects: readonly Effect[]) => void): { ms: number; cpuMs: number } {
  const rounds = Array.from({ length: 9 }, () => {
    const fresh = openRunner(machine);
    fresh.run([]);
    const start = performance.now();
    const used = process.cpuUsage();
    for (const effects of severities) work(fresh, effects);
    const { user, system } = process.cpuUsage(used);
    return { ms: performance.now() - start, cpuMs: (user + system) / 1000 };
  });
  return { ms: median(rounds.map((round) => round.ms)), cpuMs: median(rounds.map((round) => round.cpuMs)) };
}

const programme = timed((fresh, effects) => fresh.run(effects));
const { ms, cpuMs } = timed((fresh, effects) => {
  pictures = fresh.run(effects).pictures.size;
});

const start = performance.now();
let watts = 0;
let read = 0;
for (const effects of severities) {
  for (const [key, picture] of runner.run(effects).pictures) {
    for (const member of picture.members) {
      watts += runner.restore(effects, member, key).plugWatts();
      read += 1;
    }
  }
}
const readingMs = performance.now() - start;

console.log(
  `${name}: ${machine.elements.length} elements, ${machine.nodes.length} nodes, ${machine.stateSets.length} state sets`,
);
console.log(`${modes.length} modes, ${severities.length} severities, ${pictures} pictures each`);
console.log(
  `programme alone: median ${programme.ms.toFixed(0)} ms by the clock, ${programme.cpuMs.toFixed(0)} ms of processor`,
);
console.log(
  `programme and conditions, all severities: median ${ms.toFixed(0)} ms by the clock, ${cpuMs.toFixed(0)} ms of processor (promised ${promiseMs} ms)`,
);
console.log(`one run: ${((1000 * cpuMs) / severities.length).toFixed(0)} µs of processor`);
console.log(
  `run, and solved again to read watts at the plug in ${read} members: ${readingMs.toFixed(0)} ms (mean ${(watts / read).toFixed(1)} W)`,
);
console.log(`heap ${(process.memoryUsage().heapUsed / 1e6).toFixed(0)} MB`);
promise({
  what: `${name}: every single mode through its whole programme`,
  measured: cpuMs,
  unit: "ms",
  atMost: promiseMs,
});
