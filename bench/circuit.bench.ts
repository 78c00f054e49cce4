// npx tsx bench/circuit.bench.ts — the circuit solver: tables of all single and double faults, and one reading beside
// one run of a general simulator (eecircuit-engine, ngspice inside) in the same process run. Values are compared first.
import {
  compile,
  type FaultValue,
  ohmsTable,
  rowOf,
  strictGuard,
  voltsTable,
  type WrittenElement,
  writeDeck,
} from "../src/core/circuit/index.ts";
import { simulate, withAnalysis } from "../test/oracle/simulator.ts";
import { type DrawnMachine, dice, drawMachine } from "./drawn-machine.ts";
import { promise } from "./promise.ts";

const meterOhms = 1e7;
const modes = 150;
const probeCount = 60;
const omega = 2 * Math.PI * 50;

function say(name: string, ...figures: readonly string[]): void {
  console.log(`${name.padEnd(58)} ${figures.join("   ")}`);
}

/** Milliseconds of processor time (others may be using the machine), best of `rounds`. */
function best(rounds: number, work: () => void): number {
  let least = Number.POSITIVE_INFINITY;
  for (let round = 0; round < rounds; round++) {
    const begun = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(begun);
    least = Math.min(least, (user + system) / 1e3);
  }
  return least;
}

function must(holds: boolean, what: string): void {
  if (!holds) throw new Error(`not so: ${what}`);
}

/** Opens, and resistances in series, over the parts in turn. */
function drawFaults({ faulty, re }: DrawnMachine): FaultValue[] {
  return Array.from({ length: modes }, (_, n) => {
    const element = faulty[n % faulty.length];
    const series = 5 * 10 ** Math.floor(n / faulty.length);
    const open = n < faulty.length && n % 2 === 0;
    return { element, re: open || re[element] === 0 ? 0 : 1 / (1 / re[element] + series), im: 0 };
  });
}

function drawProbes({ nodes }: DrawnMachine): { a: number; b: number }[] {
  const roll = dice(99);
  return Array.from({ length: probeCount }, () => {
    const a = 1 + Math.floor(roll() * (nodes - 1));
    const b = Math.floor(roll() * (nodes - 1));
    return { a, b: b < a ? b : b + 1 };
  });
}

console.log(`tables: ${modes} faults, all pairs, ${probeCount} probes; processor time, best of 3, warm`);
for (const [seed, branches] of [
  [3, 8],
  [4, 12],
  [5, 18],
] as const) {
  const machine = drawMachine(seed, branches);
  const circuit = compile(machine);
  const faults = drawFaults(machine);
  const probes = drawProbes(machine);
  say(
    `${machine.elements.length} elements, ${machine.nodes} nodes: schedules`,
    `${best(3, () => compile(machine)).toFixed(1)} ms`,
  );
  let ohms = ohmsTable(circuit, machine.re, faults, probes);
  const ohmsTime = best(3, () => {
    ohms = ohmsTable(circuit, machine.re, faults, probes);
  });
  say("  ohms, singles and pairs", `${ohmsTime.toFixed(0)} ms`);
  const solver = circuit.ac();
  solver.re.set(machine.re);
  solver.im.set(machine.im);
  solver.emfRe.set([230, 0]);
  let volts = voltsTable(solver, faults, probes, meterOhms);
  const voltsTime = best(3, () => {
    volts = voltsTable(solver, faults, probes, meterOhms);
  });
  say(
    "  AC volts on a 10 MΩ meter, singles and pairs",
    `${voltsTime.toFixed(0)} ms`,
    `${solver.wideSolves} solves in double-double, 4 tables`,
  );
  const size = `${machine.elements.length} elements, ${probeCount} probes, all single and double faults`;
  promise({ what: `ohms table, ${size}`, measured: ohmsTime, unit: "ms", atMost: 1000 });
  promise({ what: `AC volts table, ${size}`, measured: voltsTime, unit: "ms", atMost: 1000 });

  // Some rows again one by one, from scratch and behind the strict guard.
  const roll = dice(7);
  const strict = circuit.ac(strictGuard);
  const meter = circuit.ohmmeter();
  for (let row = 0; row < 200; row++) {
    const first = Math.floor(roll() * (modes - 1));
    const second = first + 1 + Math.floor(roll() * (modes - 1 - first));
    const [one, two] = [faults[first], faults[second]];
    if (one.element === two.element) continue;
    strict.re.set(machine.re);
    strict.im.set(machine.im);
    strict.emfRe.set([230, 0]);
    meter.g.set(machine.re);
    for (const { element, re, im } of [one, two]) {
      strict.re[element] = re;
      strict.im[element] = im;
      meter.g[element] = re;
    }
    strict.solve();
    meter.solve();
    probes.forEach(({ a, b }, p) => {
      const at = rowOf(modes, first, second) * probeCount + p;
      must(ohms.values[at] === meter.ohms(a, b), "ohms of the table are those of the circuit");
      const exact = strict.metered(a, b, meterOhms).volts;
      must(Math.abs(volts.values[at] - exact) <= 1e-9 * exact + 2e-12, "volts of the table are those of the circuit");
    });
  }
}
const memory = process.memoryUsage().rss / 1e6;
say("memory of the process", `${memory.toFixed(0)} MB`);
promise({ what: "memory of the process with the largest tables", measured: memory, unit: "MB", atMost: 300 });

console.log("\none fault, one condition, 60 AC probes: ours (eliminate and read) beside one run of the simulator");
{
  const machine = drawMachine(4, 12);
  const circuit = compile(machine);
  const probes = drawProbes(machine);
  const shown = machine.faulty.slice(0, 20);
  const deckOf = (fault: number): string =>
    writeDeck(
      "drawn",
      machine.elements.flatMap(({ a, b }, e) => {
        const ends = { a: `${a}`, b: `${b}` };
        if (e === machine.sources[0])
          return [{ name: "V1", kind: "V" as const, ...ends, value: 0, ac: { magnitude: 230, degrees: 0 } }];
        if (e === machine.sources[1])
          return [{ name: "V2", kind: "V" as const, ...ends, value: 0, ac: { magnitude: 0, degrees: 0 } }];
        const siemens = e === fault ? changed(machine, e) : machine.re[e];
        const parts: WrittenElement[] = [];
        if (siemens > 0) parts.push({ name: `R${e}`, kind: "R", ...ends, value: 1 / siemens });
        if (machine.im[e] > 0) parts.push({ name: `C${e}`, kind: "C", ...ends, value: machine.im[e] / omega });
        return parts;
      }),
    ).text;
  const { results, runMilliseconds } = await simulate(
    shown.map((fault) => withAnalysis(deckOf(fault), 50)),
    3,
  );
  const theirs = runMilliseconds / (3 * shown.length);
  const solver = circuit.ac();
  solver.im.set(machine.im);
  solver.emfRe.set([230, 0]);
  const read = (fault: number): void => {
    solver.re.set(machine.re);
    solver.re[fault] = changed(machine, fault);
    solver.solve();
    for (const { a, b } of probes) sink += solver.magnitude(a, b);
  };
  let sink = 0;
  let compared = 0;
  let worst = 0;
  shown.forEach((fault, f) => {
    read(fault);
    for (const { a, b } of probes) {
      const high = results[f].get(`v(${a})`) ?? { re: 0, im: 0 };
      const low = results[f].get(`v(${b})`) ?? { re: 0, im: 0 };
      const expected = Math.hypot(high.re - low.re, high.im - low.im);
      if (expected < 1e-3) continue;
      compared++;
      worst = Math.max(worst, Math.abs(solver.magnitude(a, b) - expected) / expected);
    }
  });
  must(compared > 500 && worst < 1e-4, `readings over 1 mV agree with the simulator (worst ${worst})`);
  const repeats = 500;
  const mine =
    best(5, () => {
      for (let n = 0; n < repeats; n++) read(shown[n % shown.length]);
    }) / repeats;
  must(sink > 0, "readings were taken");
  say(`${compared} readings over 1 mV equal to`, `${worst.toExponential(1)} (the simulator subtracts potentials)`);
  say("simulator, one run", `${theirs.toFixed(2)} ms`);
  say(
    "ours, elimination and 60 readings",
    `${(mine * 1e3).toFixed(1)} µs`,
    `${(theirs / mine).toFixed(0)} times faster`,
  );
  const meter = circuit.ohmmeter();
  meter.g.set(machine.re);
  const ohmsTime =
    best(5, () => {
      for (let n = 0; n < repeats; n++) {
        meter.solve();
        for (const { a, b } of probes) sink += meter.ohms(a, b);
      }
    }) /
    (repeats * probeCount);
  say(
    "ours, one ohms reading, its share of the elimination in it",
    `${(ohmsTime * 1e6).toFixed(0)} ns`,
    `${(theirs / ohmsTime).toFixed(0)} times faster (the simulator needs a run a reading)`,
  );
}

/** 50 Ω more in series. */
function changed({ re }: DrawnMachine, element: number): number {
  return re[element] === 0 ? 0 : 1 / (1 / re[element] + 50);
}
