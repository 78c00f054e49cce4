import { expect, test } from "vitest";
import { MachineBuilder } from "../../../test/machines/build.ts";
import type { Machine } from "../sheet/index.ts";
import { DeadBench, type DeadState, deadCircuit } from "./index.ts";

const atRest: DeadState = { pulled: [], freed: [], hands: new Map() };

/**
 * A mains plug, X and Y capacitors with a 1 MΩ bleed, a plug X1 of two pins, and behind it a door switch and a 22 Ω
 * heater with a place to leak to the case.
 */
function branch(): { machine: Machine; node(id: string): number; leak: number; heater: number } {
  const b = new MachineBuilder();
  b.variable("plugged", "input", 1);
  const door = b.variable("door", "input", 0);
  b.element("mains.source", "V~", "Ls", "PE", 230);
  b.element("mains.bond", "R", "Ns", "PE", 0.01);
  b.part("joint plug.L", { joint: { plug: "plug", pin: "L", class: "mains-pin" } });
  const lineOfPlug = b.element("joint plug.L.contact", "R", "Ls", "L", 0.01);
  const neutralOfPlug = b.element("joint plug.N.contact", "R", "Ns", "N", 0.01);
  b.element("filter.X", "C", "L", "N", 470e-9);
  b.element("filter.bleed", "R", "L", "N", 1e6);
  b.element("filter.Y", "C", "N", "case", 4.7e-9);
  const first = b.element("joint X1.1.contact", "R", "L", "x1", 0.005);
  const second = b.element("joint X1.2.contact", "R", "N", "x2", 0.005);
  const shut = b.states("door-switch", ["open", "shut"]);
  b.move(shut, "shut", (m) => m.variable(door));
  b.element("door-switch.contact", "switch", "x1", "h1", { shut: 0.02 }, shut);
  b.part("joint heater.a", { joint: { part: "heater", pin: "a", class: "tab" } });
  b.element("joint heater.a.contact", "R", "h1", "ha", 0.005);
  const heater = b.element("heater.coil", "R", "ha", "x2", 22);
  const leak = b.element("heater.leak ha case", "leak", "ha", "case", Number.POSITIVE_INFINITY);
  b.point("plug.L", "L");
  b.point("plug.N", "N");
  b.plug("plug", [lineOfPlug, neutralOfPlug]);
  b.plug("X1", [first, second]);
  const machine = b.build();
  const plugs = machine.plugs.map((plug) =>
    plug.id === "plug"
      ? {
          ...plug,
          pins: [
            { pin: "L", point: 0 },
            { pin: "N", point: 1 },
          ],
        }
      : plug,
  );
  return { machine: { ...machine, plugs }, node: (id) => b.node(id), leak, heater };
}

test("at the plug with the door open only the 1 MΩ bleed is seen: capacitors are open, the mains are out", () => {
  const { machine, node } = branch();
  const ohmmeter = deadCircuit(machine, [], atRest);
  expect(ohmmeter.ohms(node("L"), node("N"))).toBeCloseTo(1e6, 3);
  expect(ohmmeter.ohms(node("L"), node("Ls"))).toBe(Number.POSITIVE_INFINITY);
  expect(ohmmeter.ohms(node("N"), node("case"))).toBe(Number.POSITIVE_INFINITY);
});

test("the door shut by hand adds the heater: 22.035 Ω beside 1 MΩ", () => {
  const { machine, node } = branch();
  const ohmmeter = deadCircuit(machine, [], { ...atRest, hands: new Map([["door", 1]]) });
  expect(ohmmeter.ohms(node("L"), node("N"))).toBeCloseTo(1 / (1 / 22.035 + 1e-6), 9);
});

test("X1 pulled: the harness reads 22.03 Ω, the plug only the bleed", () => {
  const { machine, node } = branch();
  const ohmmeter = deadCircuit(machine, [], { pulled: ["X1"], freed: [], hands: new Map([["door", 1]]) });
  expect(ohmmeter.ohms(node("x1"), node("x2"))).toBeCloseTo(22.025, 9);
  expect(ohmmeter.ohms(node("L"), node("N"))).toBeCloseTo(1e6, 3);
});

test("the heater freed leaves OL where it was, and the part itself still reads 22 Ω", () => {
  const { machine, node } = branch();
  const ohmmeter = deadCircuit(machine, [], { pulled: [], freed: ["heater"], hands: new Map([["door", 1]]) });
  expect(ohmmeter.ohms(node("h1"), node("x2"))).toBeCloseTo(1e6 + 0.03, 3);
  expect(ohmmeter.ohms(node("ha"), node("x2"))).toBe(22);
});

test("insulation with line and neutral joined: a 100 kΩ leak behind an open door is seen through the heater", () => {
  const { machine, node, leak } = branch();
  const bench = new DeadBench(machine);
  const joined = { ...atRest, joined: ["plug.L", "plug.N"] };
  const leaking = [{ does: "leak", element: leak, ohms: 1e5 }] as const;
  expect(bench.prepare(leaking, joined).ohms(node("L"), node("case"))).toBeCloseTo(100022.005, 6);
  expect(bench.prepare(leaking, atRest).ohms(node("L"), node("case"))).toBeCloseTo(1100022.005, 5);
  expect(bench.prepare([], joined).ohms(node("L"), node("case"))).toBe(Number.POSITIVE_INFINITY);
});

test("an open heater is named by what cuts: the heater among the open elements", () => {
  const { machine, node, heater } = branch();
  const ohmmeter = deadCircuit(machine, [{ does: "open", element: heater }], { ...atRest, pulled: ["X1"] });
  expect(ohmmeter.ohms(node("ha"), node("x2"))).toBe(Number.POSITIVE_INFINITY);
  expect(ohmmeter.because(node("ha"), node("x2"))).toContain(heater);
});
