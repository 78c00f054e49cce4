// How a house supply and its faults show at the appliance. Volts are Ohm's law on the drawn circuit; the trip bands are
// IEC 61008-1 (RCD: from half its rated residual current to all of it) and IEC 60898-1 (type B: 3 to 5 times), from memory.
import { describe, expect, test } from "vitest";
import type { Effect } from "../../src/core/fault/index.ts";
import { DeadBench, openRunner, type Runner } from "../../src/core/run/index.ts";
import type { Machine } from "../../src/core/sheet/index.ts";
import { shippedLibrary } from "../machines/shipped.ts";
import { machineOf, nodeOf, sheetOf } from "./read.ts";

const library = shippedLibrary();

/** Heaters straight on the supply, and a lamp from line to earth where a leak may be put. */
function house(
  name: string,
  loads: Readonly<Record<string, readonly [string, string, string]>>,
  protection = "I",
): Bench {
  const parts = Object.entries(loads).map(
    ([id, [power, from, to]]) => `  ${id}: {kind: heater, ${power}, s1: ${from}, common: ${to}, case: case, share: 1}`,
  );
  const earth = protection === "I" ? "  tag: {kind: bond, a: case, b: PE, share: 1}" : "";
  const text = `format: faultwright-sheet/1
sheet: loads
source: I
supply: {house: ${name}, class: ${protection}}
inputs: {}
steps: {plugged-in: {}}
parts:
${[...parts, earth].join("\n")}
`;
  return new Bench(machineOf(sheetOf(text, library), library));
}

class Bench {
  readonly machine: Machine;
  readonly #runner: Runner;

  constructor(machine: Machine) {
    this.machine = machine;
    this.#runner = openRunner(machine);
  }

  element(id: string): number {
    const index = this.machine.elements.findIndex((element) => element.id === id);
    if (index < 0) throw new Error(`no element ${id}`);
    return index;
  }

  open(id: string): Effect {
    return { does: "open", element: this.element(id) };
  }

  solved(effects: readonly Effect[], key = "plugged-in@end") {
    const member = this.#runner.run(effects).pictures.get(key)?.members[0];
    if (member === undefined) throw new Error(`no picture ${key}`);
    return this.#runner.restore(effects, member, key);
  }

  volts(effects: readonly Effect[], a: string, b: string, key?: string): number {
    return this.solved(effects, key).live.between(nodeOf(this.machine, a), nodeOf(this.machine, b));
  }

  stands(effects: readonly Effect[], part: string, state: string, key = "plugged-in@end"): boolean {
    const set = this.machine.stateSets.findIndex((one) => this.machine.parts[one.part]?.id === part);
    const member = this.#runner.run(effects).pictures.get(key)?.members[0];
    return this.machine.stateSets[set]?.states[member?.states[set] ?? -1] === state;
  }
}

describe("one line and neutral, 230 V", () => {
  const bench = house("single 230", { heater: ["P: 2000 W", "L", "N"] });
  const leak = (ohms: number): Effect => ({ does: "leak", element: bench.element("heater.leak s1-case"), ohms });
  const neutralLeak = (ohms: number): Effect => ({
    does: "leak",
    element: bench.element("heater.leak common-case"),
    ohms,
  });

  test("2000 W draw 8.7 A through the cord, and lose some volts in the wall", () => {
    const [at] = bench.solved([]).atPlug();
    expect(at?.amps).toBeGreaterThan(8.2);
    expect(at?.amps).toBeLessThan(8.7);
    expect(at?.volts).toBeGreaterThan(220);
  });

  test("neutral lost at the socket: nothing across the load, every node live to earth", () => {
    const lost = [bench.open("socket.neutral")];
    expect(bench.volts(lost, "heater.s1", "heater.common")).toBeLessThan(0.1);
    expect(bench.volts(lost, "heater.common", "plug.PE")).toBeGreaterThan(225);
    expect(bench.volts(lost, "plug.N", "plug.PE")).toBeGreaterThan(225);
  });

  test("line lost at the socket: nothing across the load, nothing to earth", () => {
    const lost = [bench.open("socket.line")];
    expect(bench.volts(lost, "heater.s1", "heater.common")).toBeLessThan(0.1);
    expect(bench.volts(lost, "heater.s1", "plug.PE")).toBeLessThan(0.1);
  });

  test("neutral lost in the street: the same at the plug, and the other sockets are dead too", () => {
    expect(bench.volts([bench.open("mains.neutral")], "heater.s1", "heater.common")).toBeLessThan(0.1);
  });

  test("a leak of 5 kΩ from line (46 mA) trips the RCD, one of 50 kΩ (5 mA) does not", () => {
    expect(bench.stands([leak(5000)], "rcd", "tripped")).toBe(true);
    expect(bench.stands([leak(50_000)], "rcd", "tripped")).toBe(false);
  });

  test("a dead short trips the breaker at once", () => {
    const short: Effect = { does: "short", element: bench.element("heater.first1") };
    const other: Effect = { does: "short", element: bench.element("heater.second1") };
    expect(bench.stands([short, other], "breaker", "tripped", "plugged-in@now")).toBe(true);
    expect(bench.stands([short], "breaker", "tripped", "plugged-in@now")).toBe(false);
  });

  test("neutral to earth, 1 Ω: with the load off the plug alone draws nothing, and the kettle trips it", () => {
    const off = bench.open("heater.first1");
    expect(bench.stands([off, neutralLeak(1)], "rcd", "tripped")).toBe(false);
    expect(bench.stands([off, neutralLeak(1)], "rcd", "tripped", "kettle@end")).toBe(true);
    expect(bench.stands([off], "rcd", "tripped", "kettle@end")).toBe(false);
  });

  test("plug out: no volts at its pins, and the load's ohms can be read there", () => {
    expect(bench.volts([], "plug.L", "plug.N", "plug out@end")).toBe(0);
    const dead = new DeadBench(bench.machine).prepare([], { pulled: [], freed: [], hands: new Map() });
    const ohms = dead.ohms(nodeOf(bench.machine, "plug.L"), nodeOf(bench.machine, "plug.N"));
    expect(ohms).toBeGreaterThan(26.45);
    expect(ohms).toBeLessThan(26.6);
  });
});

test("protection class II has no earth pin: a leak to the case lifts the case and trips nothing", () => {
  const bench = house("single 230", { heater: ["P: 2000 W", "L", "N"] }, "II");
  const leak: Effect = { does: "leak", element: bench.element("heater.leak s1-case"), ohms: 1000 };
  expect(bench.stands([leak], "rcd", "tripped")).toBe(false);
  expect(bench.volts([leak], "heater.case", "heater.common")).toBeGreaterThan(200);
  expect(bench.machine.points.some(({ id }) => id === "plug.PE")).toBe(false);
});

describe("split phase 120/240 V", () => {
  const small = ["P: 200 W, U: 120 V", "L1", "N"] as const;
  const large = ["P: 1000 W, U: 120 V", "L2", "N"] as const;
  const bench = house("split 120/240", { across: ["P: 4000 W, U: 240 V", "L1", "L2"], small, large });

  test("stands at 240 V across the lines, 120 V from each to neutral", () => {
    expect(bench.volts([], "plug.L1", "plug.L2")).toBeGreaterThan(225);
    expect(bench.volts([], "plug.L1", "plug.N")).toBeGreaterThan(113);
    expect(bench.volts([], "plug.L2", "plug.N")).toBeLessThan(121);
  });

  test("neutral lost: 72 Ω and 14.4 Ω part the 240 V as 5 to 1, the load across both lines does not care", () => {
    const lost = [bench.open("socket.neutral")];
    const [onSmall, onLarge] = [
      bench.volts(lost, "small.s1", "small.common"),
      bench.volts(lost, "large.s1", "large.common"),
    ];
    expect(onSmall / onLarge).toBeCloseTo(5, 2);
    expect(onSmall).toBeGreaterThan(185);
    expect(bench.volts(lost, "across.s1", "across.common")).toBeGreaterThan(225);
  });

  test("one line lost: the load across both is fed backwards through the others, and weak", () => {
    const lost = [bench.open("socket.line2")];
    expect(bench.volts(lost, "across.s1", "across.common")).toBeLessThan(120);
    expect(bench.volts(lost, "small.s1", "small.common")).toBeGreaterThan(110);
  });

  test("a leak to earth trips its RCD, balanced loads do not", () => {
    const leak: Effect = { does: "leak", element: bench.element("small.leak s1-case"), ohms: 2000 };
    expect(bench.stands([leak], "rcd", "tripped")).toBe(true);
    expect(bench.stands([], "rcd", "tripped")).toBe(false);
  });
});

describe("three lines 400/230 V", () => {
  const star = { a: ["P: 2000 W", "L1", "N"], b: ["P: 2000 W", "L2", "N"], c: ["P: 2000 W", "L3", "N"] } as const;
  const bench = house("three lines 400/230", star);

  test("stands at 398 V (√3 times 230) between lines, and a balanced load puts nothing on the neutral", () => {
    const lines = bench.volts([], "plug.L1", "plug.L2");
    expect(lines / bench.volts([], "plug.L1", "plug.N")).toBeCloseTo(Math.sqrt(3), 3);
    expect(bench.solved([]).live.amps(bench.element("cord.neutral"))).toBeLessThan(1e-6);
    expect(bench.stands([], "rcd", "tripped")).toBe(false);
  });

  test("one line lost: its load is dead, and the neutral carries what the two others do not balance", () => {
    const lost = [bench.open("socket.line3")];
    expect(bench.volts(lost, "c.s1", "c.common")).toBeLessThan(5);
    expect(bench.solved(lost).live.amps(bench.element("cord.neutral"))).toBeGreaterThan(8);
  });

  test("neutral lost with one load open: two in series across 398 V, 199 V each", () => {
    const lost = [bench.open("socket.neutral"), bench.open("c.first1")];
    expect(bench.volts(lost, "a.s1", "a.common")).toBeCloseTo(bench.volts(lost, "b.s1", "b.common"), 3);
    expect(bench.volts(lost, "a.s1", "a.common")).toBeGreaterThan(188);
    expect(bench.volts(lost, "a.s1", "a.common")).toBeLessThan(199.3);
  });

  test("a leak to earth trips the RCD of all poles", () => {
    const leak: Effect = { does: "leak", element: bench.element("b.leak s1-case"), ohms: 5000 };
    expect(bench.stands([leak], "rcd", "tripped")).toBe(true);
  });
});

test("two lines of three 400/230 V stand at 398 V across them", () => {
  const bench = house("two lines 400/230", { a: ["P: 3000 W, U: 400 V", "L1", "L2"] });
  const volts = bench.volts([], "plug.L1", "plug.L2");
  expect(volts).toBeGreaterThan(388);
  expect(volts).toBeLessThan(398.4);
});
