// npx tsx bench/tables.bench.ts [family] — all single and double faults of a family's machine at 60 probes with the plug
// out, in one picture: the ohms of every one. Some rows are read again one by one.
import { compile, type FaultValue, ohmsTable, rowOf } from "../src/core/circuit/index.ts";
import { modesOf } from "../src/core/fault/index.ts";
import { DeadBench } from "../src/core/run/index.ts";
import { dice } from "./drawn-machine.ts";
import { askedFamily } from "./family.ts";
import { promise } from "./promise.ts";

const PROBES = 60;
const { name, machine } = askedFamily();
const atRest = { pulled: [], freed: [], hands: new Map<string, number>() };
const siemens = new Float64Array(machine.elements.length);
const bench = new DeadBench(machine);
bench.fill([], atRest, siemens);

/** Modes that change one element's ohms with the plug out, at every severity. */
const faults = modesOf(machine).flatMap(({ severities }) =>
  severities.flatMap(({ effects }): readonly FaultValue[] => {
    const own = new Float64Array(siemens.length);
    bench.fill(effects, atRest, own);
    const changed = [...own.keys()].filter((e) => own[e] !== siemens[e]);
    return changed.length === 1 ? [{ element: changed[0], re: own[changed[0]], im: 0 }] : [];
  }),
);
const roll = dice(99);
const points = machine.points.map(({ node }) => node);
const pick = (): number => points[Math.floor(roll() * points.length)];
const probes: { a: number; b: number }[] = [];
while (probes.length < PROBES) {
  const [a, b] = [pick(), pick()];
  if (a !== b) probes.push({ a, b });
}

const circuit = compile({ nodes: machine.nodes.length, elements: machine.elements, sources: [] });
let table = ohmsTable(circuit, siemens, faults, probes);
const times = Array.from({ length: 3 }, () => {
  const begun = process.cpuUsage();
  table = ohmsTable(circuit, siemens, faults, probes);
  const { user, system } = process.cpuUsage(begun);
  return (user + system) / 1e3;
});

const meter = circuit.ohmmeter();
for (let n = 0; n < 200; n++) {
  const first = Math.floor(roll() * (faults.length - 1));
  const second = first + 1 + Math.floor(roll() * (faults.length - 1 - first));
  if (faults[first].element === faults[second].element) continue;
  meter.g.set(siemens);
  for (const { element, re } of [faults[first], faults[second]]) meter.g[element] = re;
  meter.solve();
  for (const [p, { a, b }] of probes.entries()) {
    if (table.values[rowOf(faults.length, first, second) * PROBES + p] !== meter.ohms(a, b)) {
      throw new Error("ohms of the table are not those of the circuit");
    }
  }
}

const memory = process.memoryUsage().rss / 1e6;
const rows = (faults.length * (faults.length + 1)) / 2;
const best = Math.min(...times);
console.log(
  `${name}: ${machine.elements.length} elements, ${machine.nodes.length} nodes, ${faults.length} faults of one element, ` +
    `${rows} singles and pairs × ${PROBES} probes: ${best.toFixed(0)} ms, ${((1e6 * best) / (rows * PROBES)).toFixed(0)} ns a reading, ${memory.toFixed(0)} MB`,
);
promise({ what: `${name}: all singles and pairs at ${PROBES} probes`, measured: best, unit: "ms", atMost: 1000 });
promise({ what: `${name}: memory of the process with that table`, measured: memory, unit: "MB", atMost: 300 });
