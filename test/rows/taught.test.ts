// What the circuit of a dryer taught technicians who expected something else. The cases and the figures in brackets come
// from a dryer of this family solved by hand beforehand with another house supply, so figures agree in size, not in digits.
import { describe, expect, it } from "vitest";
import type { Effect } from "../../src/core/fault/index.ts";
import { DeadBench } from "../../src/core/run/index.ts";
import { Dryer, readDryer } from "./dryer.ts";

const family = readDryer();
const METER_OHMS = 10e6;
const plain = {
  air: "vented",
  stages: "one",
  protectors: "self-resetting and one-shot",
  moisture: "none",
};
const onePole = new Dryer(family, {
  ...plain,
  control: "board with one heater pole",
  "motor-watch": "drum sensor on the board",
});
const twoPoles = new Dryer(family, {
  ...plain,
  control: "board with two heater poles",
  "motor-watch": "drum sensor on the board",
});
const runContact = new Dryer(family, {
  ...plain,
  control: "board with one heater pole",
  "motor-watch": "running contact in the heater wire",
});

const neutralEnd = onePole.element("heater.leak common-case");
const middle = onePole.element("heater.leak mid1-case");
const rcdHeld = onePole.stuck("rcd", "closed");
const trips = (effects: readonly Effect[], key: string): boolean => onePole.stands(effects, key, "rcd", "tripped");
const milliamps = (effects: readonly Effect[], key: string, element: number): number =>
  onePole.at([...effects, rcdHeld], key).live.amps(element) * 1000;

describe("a leak to the case at the neutral end of the heater, standing off", () => {
  const leak = (ohms: number): Effect => ({ does: "leak", element: neutralEnd, ohms });

  it("of 1 kΩ does not trip when the kettle runs: under 0.1 V stands across it (84 mV)", () => {
    expect(trips([leak(1000)], "kettle")).toBe(false);
    const volts = onePole.at([leak(1000)], "kettle").live.volts(neutralEnd);
    expect(volts).toBeGreaterThan(0.04);
    expect(volts).toBeLessThan(0.17);
  });

  it("of 1 kΩ shows under 1 mA in a clamp round the cord, most of it the filter's (0.7 mA)", () => {
    const solved = onePole.at([leak(1000)], "kettle");
    const clamp = solved.leakageAmps() * 1000;
    expect(clamp).toBeGreaterThan(0.2);
    expect(clamp).toBeLessThan(1);
    expect(solved.live.amps(neutralEnd) * 1000).toBeLessThan(clamp / 2);
  });

  it("of 1 Ω trips when the kettle runs (51 mA)", () => {
    expect(trips([leak(1)], "kettle")).toBe(true);
    const leaking = milliamps([leak(1)], "kettle", neutralEnd);
    expect(leaking).toBeGreaterThan(25);
    expect(leaking).toBeLessThan(100);
  });

  it("of 50 Ω trips as the motor starts, not only when it heats: its stall current lifts the neutral (42 mA, 8 mA running)", () => {
    expect(trips([leak(50)], "turn@now")).toBe(true);
    const starting = milliamps([leak(50)], "turn@now", neutralEnd);
    const running = milliamps([leak(50)], "turn@seconds", neutralEnd);
    expect(starting).toBeGreaterThan(30);
    expect(starting).toBeLessThan(60);
    expect(running).toBeGreaterThan(5);
    expect(running).toBeLessThan(15);
  });
});

it("a coil sagged to the case behind one relay pole leaks about 1 mA standing off, and trips at the motor's start", () => {
  const sagged: Effect = { does: "leak", element: middle, ohms: 1 };
  expect(trips([sagged], "plugged-in@end")).toBe(false);
  expect(milliamps([sagged], "plugged-in@end", middle)).toBeCloseTo(1, 0);
  expect(trips([sagged], "turn@now")).toBe(true);
  // Five times less once it runs (86 mA, then 17 mA): whether it trips then hangs on the RCD.
  const ratio = milliamps([sagged], "turn@now", middle) / milliamps([sagged], "turn@seconds", middle);
  expect(ratio).toBeGreaterThan(3);
  expect(ratio).toBeLessThan(7);
});

describe("a running contact that stays open, and a one-shot that has blown", () => {
  const open = [runContact.stuck("run-contact", "still")];
  const blown = [runContact.stuck("one-shot", "blown")];

  it("are one and the same at the plug and at the control: about 228 W, and 229 V at X3 pins 1 and 3", () => {
    for (const effects of [open, blown]) {
      const solved = runContact.at(effects, "heat@seconds");
      expect(solved.plugWatts()).toBeCloseTo(228, -1);
      const { volts } = solved.metered(runContact.node("X3.1"), runContact.node("X3.3"), METER_OHMS);
      expect(volts).toBeGreaterThan(225);
      expect(volts).toBeLessThan(231);
    }
  });

  it("are parted dead, by halving the branch where the cut-outs end", () => {
    const bench = new DeadBench(runContact.machine);
    const state = { pulled: ["X3"], freed: [], hands: new Map() };
    const toTheMiddle = (effects: readonly Effect[]): number =>
      bench.prepare(effects, state).ohms(runContact.node("X3.1"), runContact.node("one-shot.b"));
    expect(toTheMiddle(open)).toBeCloseTo(22.4, 0);
    expect(toTheMiddle(blown)).toBe(Number.POSITIVE_INFINITY);
  });

  it("a good machine, too, reads OL at X3 pins 1 and 3 with the motor at rest", () => {
    const ohmmeter = new DeadBench(runContact.machine).prepare([], { pulled: ["X3"], freed: [], hands: new Map() });
    expect(ohmmeter.ohms(runContact.node("X3.1"), runContact.node("X3.3"))).toBe(Number.POSITIVE_INFINITY);
  });
});

describe("volts that look right", () => {
  it("neutral lost at the socket: nothing across X3, and about 228 V from neutral to earth at the plug (225 V)", () => {
    const lost: Effect[] = [{ does: "open", element: twoPoles.element("socket.neutral") }];
    const solved = twoPoles.at(lost, "heat@seconds");
    expect(solved.metered(twoPoles.node("X3.1"), twoPoles.node("X3.3"), METER_OHMS).volts).toBeLessThan(1);
    const lifted = solved.metered(twoPoles.node("plug.N"), twoPoles.node("plug.PE"), METER_OHMS).volts;
    expect(lifted).toBeGreaterThan(220);
    expect(lifted).toBeLessThan(231);
  });

  it("neutral pole of the heater relay dead: 229 V to earth on both sides of the heater, nothing across it", () => {
    const dead: Effect[] = [{ does: "open", element: twoPoles.element("heat-relay-n.contact1") }];
    const solved = twoPoles.at(dead, "heat@seconds");
    const volts = (a: string, b: string): number =>
      solved.metered(twoPoles.node(a), twoPoles.node(b), METER_OHMS).volts;
    expect(volts("X3.1", "plug.PE")).toBeCloseTo(229, -0.5);
    expect(volts("X3.3", "plug.PE")).toBeCloseTo(229, -0.5);
    expect(volts("X3.1", "X3.3")).toBeLessThan(0.1);
  });
});
