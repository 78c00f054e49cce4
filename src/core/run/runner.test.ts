import { expect, test } from "vitest";
import { MachineBuilder, timeOut } from "../../../test/machines/build.ts";
import { smallDryer } from "../../../test/machines/small-dryer.ts";
import type { Effect } from "../fault/index.ts";
import type { Machine } from "../sheet/index.ts";
import { openRunner, type Run, type Runner, runMachine } from "./index.ts";

/** Watts in an element in every member of a picture. */
function watts(runner: Runner, run: Run, key: string, element: number, effects: readonly Effect[] = []): number[] {
  const members = run.pictures.get(key)?.members ?? [];
  return members.map((member) => runner.restore(effects, member, key).live.watts(element));
}

test("a good small dryer heats with 2.3 kW from seconds on, says nothing and opens nothing", () => {
  const { machine, heater } = smallDryer();
  const runner = openRunner(machine);
  const run = runner.healthy;
  expect(run.reached).toEqual(["plugged-in", "turn", "heat"]);
  expect(run.said).toEqual([]);
  expect(run.wouldOpen).toEqual([]);
  expect(run.hunts).toEqual([]);
  expect(watts(runner, run, "turn@end", heater)).toEqual([0]);
  expect(watts(runner, run, "heat@seconds", heater)[0]).toBeGreaterThan(2250);
  expect(watts(runner, run, "heat@end", heater)).toHaveLength(1);
});

test("a guard that reads what its output causes is read one tick late: heat waits for the drum, which takes seconds", () => {
  const b = new MachineBuilder();
  const heatOut = b.variable("heat-out", "output");
  const motorOut = b.variable("motor-out", "output");
  const drum = b.world("drum", (m) => m.variable(motorOut), "seconds");
  b.step("heat", { drives: [{ output: motorOut }, { output: heatOut, guard: (m) => m.variable(drum) }] });
  const run = runMachine(b.build(), []);
  expect(run.pictures.get("heat@now")?.members[0].variables[heatOut]).toBe(0);
  expect(run.pictures.get("heat@seconds")?.members[0].variables[heatOut]).toBe(1);
  expect(run.hunts).toEqual([]);
});

test("with the airway at 0.3 the cut-out opens at 155 °C while the exhaust, limit 75, has not reached it: one ramp for both", () => {
  const { machine, cutOut, airway, exhaust } = smallDryer();
  const run = runMachine(machine, [{ does: "set", variable: airway, to: 0.3 }]);
  const members = run.pictures.get("heat@minutes")?.members ?? [];
  expect(members.some((member) => member.states[cutOut] === 1)).toBe(true);
  expect(Math.max(...members.map((member) => member.variables[exhaust]))).toBeLessThan(75);
});

test("a cycling cut-out is a mixture of 0 W and 2.3 kW, never a mean, with the share of time of its two ramps", () => {
  const { machine, heater, airway } = smallDryer();
  const runner = openRunner(machine);
  const effects: Effect[] = [{ does: "set", variable: airway, to: 0.5 }];
  const run = runner.run(effects);
  expect(run.hunts).toContainEqual({ step: "heat", moment: "minutes", haste: "minutes" });
  const members = run.pictures.get("heat@minutes")?.members ?? [];
  const seen = watts(runner, run, "heat@minutes", heater, effects);
  expect(seen.map((power) => (power > 2250 ? "hot" : power)).sort()).toEqual([0, "hot"]);
  // The air at the heater goes 130 → 155 towards 20 + P/12 while it heats, and 155 → 130 towards 20 while it does not.
  const hot = Math.max(...seen);
  const heating = 25 / (20 + hot / 12 - 130);
  const cooling = 25 / (155 - 20);
  const hotMember = members[seen.indexOf(hot)];
  expect(hotMember.weight).toBeCloseTo(heating / (heating + cooling), 6);
  expect(members.reduce((sum, member) => sum + member.weight, 0)).toBeCloseTo(1, 12);
});

test("a guard without hysteresis spends on either side the time that keeps its mean at 75 degrees", () => {
  const b = new MachineBuilder();
  const heatOut = b.variable("heat-out", "output");
  const temperature = b.world("temperature", (m) => (m.variable(heatOut) === 1 ? 105 : 20), "minutes", 20);
  b.step("heat", { drives: [{ output: heatOut, guard: (m) => Number(m.variable(temperature) < 75) }] });
  const members = runMachine(b.build(), []).pictures.get("heat@end")?.members ?? [];
  const on = members.filter((member) => member.variables[heatOut] === 1).reduce((sum, { weight }) => sum + weight, 0);
  expect(members.every((member) => Math.abs(member.variables[temperature] - 75) < 1e-3)).toBe(true);
  expect(on).toBeCloseTo((75 - 20) / (105 - 20), 4);
});

test("a permanent protector is never opened by the run: it is only noted that it would, at 180 °C", () => {
  const { machine, airway, cutOut, oneShot } = smallDryer();
  const effects: Effect[] = [
    { does: "set", variable: airway, to: 0.1 },
    { does: "stuck", set: cutOut, state: 0 },
  ];
  const run = runMachine(machine, effects);
  expect(run.wouldOpen.map((part) => machine.parts[part].id)).toEqual(["one-shot"]);
  expect(run.pictures.get("heat@end")?.members.every((member) => member.states[oneShot] === 0)).toBe(true);
  // With the cut-out working it opens first, so the one-shot never gets that hot.
  expect(runMachine(machine, effects.slice(0, 1)).wouldOpen).toEqual([]);
});

/** A control with one output, asked in three ways whether the door is shut. */
function withDoor(how: "enters-if" | "needs" | "guards"): { machine: Machine; door: number; out: number } {
  const b = new MachineBuilder();
  const door = b.variable("door", "input", 1);
  const out = b.variable("out", "output");
  const other = b.variable("other", "output");
  const when = (m: { variable(index: number): number }) => m.variable(door);
  b.step("turn", {
    entersIf: how === "enters-if" ? [{ says: "no answer", when }] : [],
    needs: how === "needs" ? [{ says: "door", when }] : [],
    drives: [{ output: other }, how === "guards" ? { output: out, guard: when } : { output: out }],
  });
  b.step("cool", { drives: [{ output: other }] });
  b.condition("open-door", [{ variable: door, to: 0 }], "turn");
  return { machine: b.build(), door, out };
}

test("enters-if is asked once: refused at the start, but the door opened later changes nothing", () => {
  const { machine, door, out } = withDoor("enters-if");
  const refused = runMachine(machine, [{ does: "set", variable: door, to: 0 }]);
  expect(refused.reached).toEqual([]);
  expect(refused.said).toEqual([{ step: "turn", says: "no answer" }]);
  expect(refused.pictures.get("cool@end")?.members[0].variables[out + 1]).toBe(0);
  expect(runMachine(machine, []).pictures.get("open-door@end")?.members[0].variables[out]).toBe(1);
});

test("needs are asked throughout: the door opened stops all outputs, and a condition does not stop the programme", () => {
  const { machine, door, out } = withDoor("needs");
  const run = runMachine(machine, []);
  expect(run.pictures.get("turn@now")?.members[0].variables[out]).toBe(1);
  expect(Array.from(run.pictures.get("open-door")?.members[0].variables ?? [])).toEqual([0, 0, 0]);
  expect(run.reached).toEqual(["turn", "cool"]);
  expect(run.said).toEqual([]);
  expect(runMachine(machine, [{ does: "set", variable: door, to: 0 }]).said).toEqual([{ step: "turn", says: "door" }]);
});

test("a guard withholds one output only: with the door open the other output of the step stays on", () => {
  const { machine, door, out } = withDoor("guards");
  const run = runMachine(machine, [{ does: "set", variable: door, to: 0 }]);
  const variables = run.pictures.get("turn@end")?.members[0].variables;
  expect([variables?.[out], variables?.[out + 1]]).toEqual([0, 1]);
  expect(run.said).toEqual([]);
  expect(run.reached).toEqual(["turn", "cool"]);
});

test("a time-out acts in the minutes picture, the soonest first, and the later steps are not reached", () => {
  const b = new MachineBuilder();
  const sensor = b.variable("sensor", "input", 1);
  const out = b.variable("out", "output");
  const bad = (m: { variable(index: number): number }) => 1 - m.variable(sensor);
  b.step("heat", {
    drives: [{ output: out }],
    timeOuts: [
      timeOut("late", bad, 600, [{ do: "say", says: "late" }, { do: "stop" }]),
      timeOut("ntc", bad, 10, [{ do: "say", says: "sensor" }, { do: "lock out" }]),
    ],
  });
  b.step("cool", { drives: [{ output: out }] });
  const machine = b.build();
  const run = runMachine(machine, [{ does: "set", variable: sensor, to: 0 }]);
  expect(run.said).toEqual([{ step: "heat", says: "sensor" }]);
  expect(run.pictures.get("heat@minutes")?.members[0].variables[out]).toBe(1);
  expect(run.pictures.get("heat@end")?.members[0].variables[out]).toBe(0);
  expect(run.reached).toEqual(["heat"]);
  expect(runMachine(machine, []).said).toEqual([]);
});

test("a time-out that drains skips the wash, drives the pump in the step drain, and stops before the spin", () => {
  const b = new MachineBuilder();
  const out = b.variable("out", "output");
  const pump = b.variable("pump", "output");
  const gives = timeOut("cold", () => 1, 60, [{ do: "say", says: "not warm" }, { do: "drain" }]);
  b.step("heat", { drives: [{ output: out }], timeOuts: [gives] });
  b.step("wash", { drives: [{ output: out }] });
  b.step("drain", { drives: [{ output: pump }] });
  b.step("spin", { drives: [{ output: out }] });
  const run = runMachine(b.build(), []);
  expect(run.reached).toEqual(["heat", "drain"]);
  const driven = (key: string) => {
    const variables = run.pictures.get(key)?.members[0].variables;
    return [variables?.[out], variables?.[pump]];
  };
  expect(driven("heat@minutes")).toEqual([1, 0]);
  expect(driven("heat@end")).toEqual([0, 0]);
  expect(driven("wash@minutes")).toEqual([0, 0]);
  expect(driven("drain@minutes")).toEqual([0, 1]);
  expect(driven("spin@minutes")).toEqual([0, 0]);
});

test("a time-out that says and goes on does not stop the programme", () => {
  const b = new MachineBuilder();
  const out = b.variable("out", "output");
  const goesOn = timeOut("tank", () => 1, 60, [{ do: "say", says: "tank full" }, { do: "go on" }]);
  b.step("heat", { drives: [{ output: out }], timeOuts: [goesOn] });
  b.step("cool", { drives: [{ output: out }] });
  const run = runMachine(b.build(), []);
  expect(run.said).toEqual([{ step: "heat", says: "tank full" }]);
  expect(run.reached).toEqual(["heat", "cool"]);
});

test("an RCD of 22 mA trips on 51 mA from the neutral to earth only once the kettle runs, and stays tripped with the plug out", () => {
  const b = new MachineBuilder();
  const plugged = b.variable("plugged", "input", 1);
  const kettle = b.variable("kettle", "input", 0);
  const rcd = b.states("rcd", ["shut", "tripped"], true);
  const socket = b.states("socket", ["in", "out"]);
  const kettleSwitch = b.states("kettle-switch", ["off", "on"]);
  b.move(socket, "out", (m) => 1 - m.variable(plugged));
  b.move(socket, "in", (m) => m.variable(plugged));
  b.move(kettleSwitch, "on", (m) => m.variable(kettle));
  b.move(kettleSwitch, "off", (m) => 1 - m.variable(kettle));
  b.element("mains.source", "V~", "Ls", "earth", 230);
  b.element("bond.wire", "R", "Ns", "earth", 0.01);
  const line = b.element("rcd.line", "switch", "Ls", "L", { shut: 0.01 }, rcd);
  const neutral = b.element("rcd.neutral", "switch", "Ns", "N", { shut: 0.01 }, rcd);
  b.element("kettle.element", "R", "L", "k", 26);
  b.element("kettle.switch", "switch", "k", "N", { on: 0.01 }, kettleSwitch);
  b.element("heater.coil", "R", "L", "m", 1e6);
  b.element("socket.neutral", "switch", "N", "m", { in: 0.02 }, socket);
  const leak = b.element("heater.leak", "leak", "m", "earth", Number.POSITIVE_INFINITY);
  b.move(rcd, "tripped", (m) => Number(m.apart(line, neutral) > 0.022));
  b.step("plugged-in");
  b.condition("kettle", [{ variable: kettle, to: 1 }], "plugged-in");
  const machine = b.build();
  const fault: Effect[] = [{ does: "leak", element: leak, ohms: 1.5 }];
  const run = runMachine(machine, fault);
  const tripped = (key: string, of = run) => of.pictures.get(key)?.members[0].states[rcd];
  expect(tripped("plugged-in@end")).toBe(0);
  expect(tripped("kettle@now")).toBe(1);
  expect(tripped("kettle", runMachine(machine, []))).toBe(0);
  // 1 kΩ at the same place: 84 mV over it, far too little.
  expect(tripped("kettle", runMachine(machine, [{ does: "leak", element: leak, ohms: 1000 }]))).toBe(0);

  const steps: Machine = {
    ...machine,
    conditions: [{ id: "plug out", set: [{ variable: plugged, to: 0 }], after: "on" }],
  };
  const withStep: Machine = { ...steps, steps: [...machine.steps, { ...machine.steps[0], id: "on" }] };
  const direct = runMachine(withStep, [...fault, { does: "set", variable: kettle, to: 1 }]);
  expect(tripped("plug out", direct)).toBe(1);
  expect(direct.pictures.get("plug out")?.members[0].states[socket]).toBe(1);
});

test("a hunt at now is named, with both members at equal shares, and ends", () => {
  const b = new MachineBuilder();
  const buzzer = b.states("buzzer", ["off", "on"]);
  b.move(buzzer, "on", (m) => Number(m.state(buzzer) === 0));
  b.move(buzzer, "off", (m) => Number(m.state(buzzer) === 1));
  b.step("on");
  const run = runMachine(b.build(), []);
  expect(run.hunts[0]).toEqual({ step: "on", moment: "now", haste: "now" });
  expect(run.pictures.get("on@end")?.members.map(({ weight }) => weight)).toEqual([0.5, 0.5]);
});

test("a programme whose control dies stops without a word and stays stopped when the power returns", () => {
  const b = new MachineBuilder();
  const power = b.states("board", ["off", "on"]);
  const out = b.variable("out", "output");
  b.move(power, "on", (m) => 1 - m.variable(out));
  b.move(power, "off", (m) => m.variable(out));
  const runBy = (m: { state(set: number): number }) => m.state(power);
  b.step("plugged-in", { runBy });
  b.step("turn", { runBy, needs: [{ says: "door", when: runBy }], drives: [{ output: out }] });
  const run = runMachine(b.build(), []);
  expect(run.said).toEqual([]);
  expect(run.reached).toEqual(["plugged-in", "turn"]);
  expect(run.pictures.get("turn@end")?.members.map(({ states }) => states[power])).toEqual([1]);
});

test("service test commands one output, whatever its guard says", () => {
  const { machine, door, out } = withDoor("guards");
  const runner = openRunner(machine);
  const run = runner.commanded([{ does: "set", variable: door, to: 0 }], out);
  expect(run.pictures.get("command out@end")?.members[0].variables[out]).toBe(1);
  expect(run.pictures.get("command out@end")?.members[0].variables[out + 1]).toBe(0);
});

test("a value of the healthy machine is compared with at the same step: half the watts of good", () => {
  const { machine, heater, contact } = smallDryer();
  const runner = openRunner({ ...machine, goods: [(m) => m.watts(heater)] });
  const effects: Effect[] = [{ does: "series", element: contact, ohms: 22 }];
  const run = runner.run(effects);
  const [member] = run.pictures.get("heat@seconds")?.members ?? [];
  const { live } = runner.restore(effects, member, "heat@seconds");
  expect(live.watts(heater) / live.good(0)).toBeCloseTo((22.44 / 44.44) ** 2, 3);
});

test("effects that change nothing give the healthy run, and the order of effects does not matter", () => {
  const { machine, contact, heater, airway } = smallDryer();
  const runner = openRunner(machine);
  const nothing: Effect[] = [
    { does: "factor", element: heater, by: 1 },
    { does: "series", element: contact, ohms: 0 },
    { does: "set", variable: airway, to: 1 },
  ];
  expect(runner.run(nothing)).toEqual(runner.healthy);
  const effects: Effect[] = [
    { does: "series", element: heater, ohms: 5 },
    { does: "factor", element: heater, by: 0.8 },
    { does: "parallel", element: heater, ohms: 300 },
    { does: "set", variable: airway, to: 0.4 },
    { does: "open", element: contact },
    { does: "short", element: contact },
  ];
  const run = runner.run(effects);
  expect(runner.run([...effects].reverse())).toEqual(run);
  expect(runner.run([])).toEqual(runner.healthy);
});
