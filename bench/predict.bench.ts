// npx tsx bench/predict.bench.ts [family] — the whole table of expected readings of a family (every single mode at every severity,
// every usual probe in every condition) beside a general simulator (eecircuit-engine, ngspice inside), which needs one
// run for each fault and live condition, and one for each fault and pair of points for ohms. Values are compared first.
import { type WrittenElement, writeDeck } from "../src/core/circuit/index.ts";
import { modesOf } from "../src/core/fault/index.ts";
import {
  type Atom,
  effectsOf,
  type Fault,
  Predictor,
  type Probe,
  stateName,
  usualProbes,
} from "../src/core/predict/index.ts";
import { DeadBench, deckOf } from "../src/core/run/index.ts";
import { simulate, withAnalysis } from "../test/oracle/simulator.ts";
import { askedFamily } from "./family.ts";
import { promise } from "./promise.ts";

const promised = 500;
/** A meter so good that it loads nothing, as the simulator's. */
const noLoad = 1e15;

const { name, machine } = askedFamily();
const modes = modesOf(machine);
const probes = usualProbes(machine)
  .map(({ probe }) => probe)
  .filter(({ quantity }) => quantity === "ohms" || quantity === "volts")
  // State by state, so that each is solved once a fault.
  .sort((a, b) => (stateName(a.state) < stateName(b.state) ? -1 : 1));
const ohmProbes = probes.filter(({ quantity }) => quantity === "ohms");
const voltProbes = probes.filter(({ quantity }) => quantity === "volts");
const steps = new Set(voltProbes.map(({ state }) => (state.kind === "live" ? state.step : undefined)));
const node = (id: string | undefined): number => machine.points.find((point) => point.id === id)?.node ?? -1;

function cpuMs(work: () => void): number {
  const begun = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(begun);
  return (user + system) / 1e3;
}

function best(rounds: number, work: () => void): number {
  return Math.min(...Array.from({ length: rounds }, () => cpuMs(work)));
}

/** The dead machine as a deck with 1 A through the probe: volts are ohms. Only what hangs together with it is written. */
function ohmsDeck(fault: Fault, probe: Probe): { text: string; from: string } | undefined {
  if (probe.state.kind !== "dead") return undefined;
  const bench = new DeadBench(machine);
  const siemens = new Float64Array(machine.elements.length * 2 + 64);
  bench.fill(effectsOf(fault), probe.state, siemens);
  const [from, to] = [node(probe.from), node(probe.to)];
  const reached = new Set([to]);
  for (const at of reached) {
    for (const [e, { a, b }] of machine.elements.entries()) {
      if (siemens[e] === 0) continue;
      if (a === at) reached.add(b);
      if (b === at) reached.add(a);
    }
  }
  if (!reached.has(from)) return undefined;
  // The simulator has no dead short: points joined by one are written as one.
  const merged = machine.nodes.map((_, n) => n);
  for (const [e, { a, b }] of machine.elements.entries()) {
    if (siemens[e] !== Number.POSITIVE_INFINITY) continue;
    const [gone, kept] = [merged[a], merged[b]];
    for (const n of merged.keys()) if (merged[n] === gone) merged[n] = kept;
  }
  const name = (n: number): string => numbered.nodes[merged[n]];
  const parts = numbered.elements.flatMap(({ id, a, b }, e): readonly WrittenElement[] =>
    siemens[e] === 0 || !reached.has(a) || merged[a] === merged[b]
      ? []
      : [{ name: id, kind: "R", a: name(a), b: name(b), value: 1 / siemens[e] }],
  );
  if (merged[from] === merged[to]) return undefined;
  const source: WrittenElement = { name: "probe", kind: "I", a: name(to), b: name(from), value: 1 };
  const deck = writeDeck("ohms", [...parts, source], name(to));
  return { text: withAnalysis(deck.text), from: (deck.nodeNames.get(name(from)) ?? "").toLowerCase() };
}

/** The simulator takes a hyphen for a minus: points and elements by number. */
const numbered = {
  ...machine,
  nodes: machine.nodes.map((_, n) => `n${n}`),
  elements: machine.elements.map((element, e) => ({ ...element, id: `e${e}` })),
};

/** The simulator cannot solve what floats: every node is tied to ground by 1 TΩ. */
function tied(deck: string): string {
  const nodes = new Set(deck.match(/\bn\d+\b/g));
  return deck.replace(/^\.ac /m, `${[...nodes].map((name) => `Rtie${name} ${name} 0 1e12`).join("\n")}\n.ac `);
}

/** In portions: the simulator keeps what it has run, until it has no more room. */
async function inPortions(decks: readonly string[]) {
  const results: Awaited<ReturnType<typeof simulate>>["results"] = [];
  let runMilliseconds = 0;
  for (let k = 0; k < decks.length; k += 20) {
    const portion = await simulate(decks.slice(k, k + 20));
    results.push(...portion.results);
    runMilliseconds += portion.runMilliseconds;
  }
  return { results, runMilliseconds };
}

const predictor = new Predictor(machine, modes);
const { atoms } = predictor;
console.log(
  `${name}: ${machine.elements.length} elements, ${machine.nodes.length} nodes; ${modes.length} modes, ${atoms.length} with severities; ` +
    `${voltProbes.length} readings of volts in ${steps.size} steps, ${ohmProbes.length} of ohms`,
);

// Values first: a sample of faults, every pair of ohms and every step, against the simulator.
const sample = atoms.filter((_, a) => a % 41 === 0);
const ohmsAsked = sample.flatMap((atom) =>
  ohmProbes
    .filter((_, p) => p % 5 === 0)
    .flatMap((probe) => {
      const deck = ohmsDeck([atom], probe);
      return deck === undefined ? [] : [{ atom, probe, deck }];
    }),
);
const ohmsRun = await inPortions(ohmsAsked.map(({ deck }) => deck.text));
let worstOhms = 0;
for (const [k, { atom, probe, deck }] of ohmsAsked.entries()) {
  const theirs = ohmsRun.results[k].get(`v(${deck.from})`)?.re ?? Number.NaN;
  const ours = predictor.value(probe, noLoad, [atom]);
  if (Math.abs(theirs) < 1e6) worstOhms = Math.max(worstOhms, Math.abs(theirs / ours - 1));
}

const voltsAsked = sample.flatMap((atom) =>
  [...steps].map((step) => ({ atom, step, deck: liveDeck(atom, step ?? "") })),
);
const voltsRun = await inPortions(voltsAsked.map(({ deck }) => tied(withAnalysis(deck.text, machine.supply.hertz))));
let worstVolts = 0;
for (const [k, { atom, step, deck }] of voltsAsked.entries()) {
  const at = (id: string | undefined): { re: number; im: number } | undefined => {
    const name = deck.nodeNames.get(numbered.nodes[node(id)])?.toLowerCase();
    return name === "0" ? { re: 0, im: 0 } : voltsRun.results[k].get(`v(${name})`);
  };
  for (const probe of voltProbes) {
    if (probe.state.kind !== "live" || probe.state.step !== step) continue;
    const [from, to] = [at(probe.from), at(probe.to)];
    const ours = predictor.value(probe, noLoad, [atom]);
    // What floats has no volts of its own: the simulator ties it to ground by its least conductance.
    if (from === undefined || to === undefined || ours < 1) continue;
    worstVolts = Math.max(worstVolts, Math.abs(Math.hypot(from.re - to.re, from.im - to.im) / ours - 1));
  }
}
if (!(worstOhms < 1e-6) || !(worstVolts < 1e-6))
  throw new Error(`values differ: ohms ${worstOhms}, volts ${worstVolts}`);
console.log(
  `values equal first: ${ohmsAsked.length} readings of ohms (worst ${worstOhms.toExponential(1)}), ` +
    `${voltsAsked.length} runs of volts (worst ${worstVolts.toExponential(1)})`,
);

function liveDeck(atom: Atom, step: string) {
  const picture = predictor.runOf([atom]).pictures.get(`${step}@minutes`);
  if (picture === undefined) throw new Error(`no picture of ${step}`);
  const member = picture.members.reduce((longest, one) => (one.weight > longest.weight ? one : longest));
  return deckOf(numbered, effectsOf([atom]), member, "live");
}

const theirsMs =
  (ohmsRun.runMilliseconds / ohmsAsked.length) * atoms.length * ohmProbes.length +
  (voltsRun.runMilliseconds / voltsAsked.length) * atoms.length * steps.size;

let sum = 0;
const table = (of: (known: Predictor, probe: Probe, atom: Atom) => number): number =>
  best(3, () => {
    const known = new Predictor(machine, modes);
    for (const atom of atoms) for (const probe of probes) sum += Math.min(1e12, of(known, probe, atom));
  });
const valuesMs = table((known, probe, atom) => known.value(probe, 1e7, [atom]));
const spreadMs = table((known, probe, atom) => known.shows(probe, 1e7, [atom]).terms.length);
const readings = atoms.length * probes.length;
console.log(
  `simulator: ${(ohmsRun.runMilliseconds / ohmsAsked.length).toFixed(1)} ms a run of ohms, ` +
    `${(voltsRun.runMilliseconds / voltsAsked.length).toFixed(1)} ms a run of volts; the whole table ${(theirsMs / 1000).toFixed(0)} s`,
);
console.log(
  `ours, values, programme runs included: ${valuesMs.toFixed(0)} ms for ${readings} readings, ${((1000 * valuesMs) / readings).toFixed(1)} µs each: ` +
    `${(theirsMs / valuesMs).toFixed(0)} times faster (promised ${promised})`,
);
console.log(
  `ours, with spread by tolerances and severities: ${spreadMs.toFixed(0)} ms, ${((1000 * spreadMs) / readings).toFixed(1)} µs each: ` +
    `${(theirsMs / spreadMs).toFixed(0)} times faster`,
);
console.log(`heap ${(process.memoryUsage().heapUsed / 1e6).toFixed(0)} MB`);
promise({
  what: `${name}: table of expected readings against the simulator`,
  measured: theirsMs / valuesMs,
  unit: "times faster",
  atLeast: promised,
});
if (sum === 0) process.exitCode = 1;
