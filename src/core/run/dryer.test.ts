import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { shippedMachine } from "../../../test/machines/shipped.ts";
import { compile } from "../circuit/index.ts";
import { type Effect, modesOf } from "../fault/index.ts";
import type { Evaluate } from "../part/index.ts";
import type { Machine } from "../sheet/index.ts";
import { DeadBench, openRunner, type Runner } from "./index.ts";
import { Live } from "./live.ts";
import { networkOf } from "./network.ts";
import { Programme } from "./programme.ts";
import { Solutions } from "./solutions.ts";

// What the circuit of a dryer taught the technician on a sheet worked by hand, asked again of the shipped sheet. The
// milliamperes depend on the ohms of the house, so each is compared with the same sum done by hand, within a third.

const answers = { control: "board with one heater pole", protectors: "self-resetting and one-shot", stages: "one" };
const withDrumSensor = shippedMachine("tumble-dryer", { ...answers, "motor-watch": "drum sensor on the board" });
const withRunContact = shippedMachine("tumble-dryer", {
  ...answers,
  "motor-watch": "running contact in the heater wire",
});

function element(machine: Machine, id: string): number {
  const index = machine.elements.findIndex((candidate) => candidate.id === id);
  if (index < 0) throw new Error(`no element ${id}`);
  return index;
}

function node(machine: Machine, id: string): number {
  const point = machine.points.find((candidate) => candidate.id === id);
  if (point === undefined) throw new Error(`no point ${id}`);
  return point.node;
}

function stateSet(machine: Machine, part: string): number {
  return machine.stateSets.findIndex((set) => machine.parts[set.part].id === part);
}

function leak(machine: Machine, place: string, ohms: number): Effect {
  return { does: "leak", element: element(machine, `heater.leak ${place}-case`), ohms };
}

/** Milliamperes that an RCD sees, with the RCD held in so that the current goes on. */
function leakMilliamps(runner: Runner, effect: Effect, key: string): number {
  const { machine } = runner;
  const effects: Effect[] = [effect, { does: "stuck", set: stateSet(machine, "rcd"), state: 0 }];
  const [member] = runner.run(effects).pictures.get(key)?.members ?? [];
  const { live } = runner.restore(effects, member, key);
  return 1000 * live.apart(element(machine, "rcd.line"), element(machine, "rcd.neutral"));
}

function tripsIn(runner: Runner, effect: Effect): string[] {
  const rcd = stateSet(runner.machine, "rcd");
  const { pictures } = runner.run([effect]);
  return ["plugged-in", "kettle", "turn", "heat"].filter(
    (step) => pictures.get(`${step}@end`)?.members[0].states[rcd] === 1,
  );
}

function within(value: number, byHand: number): void {
  expect(value).toBeGreaterThan(byHand / 1.33);
  expect(value).toBeLessThan(byHand * 1.33);
}

describe("a leak at the neutral end of the heater", () => {
  const runner = openRunner(withDrumSensor);
  const { machine } = runner;
  const nominal = (id: string) => machine.elements[element(machine, id)].values[0].nominal;
  // From the heater's neutral end to the house's neutral, and back by the earth cores and the house's bond.
  const neutralOhms = nominal("filter.choke-n") + nominal("cord.neutral") + nominal("cable.neutral");
  const loop = neutralOhms + nominal("cord.earth") + nominal("cable.earth") + nominal("bond.link");

  test("1 kΩ does not trip with the kettle on: under 0.5 mA, mostly the Y capacitor's", () => {
    expect(leakMilliamps(runner, leak(machine, "common", 1000), "kettle@end")).toBeLessThan(0.5);
    expect(tripsIn(runner, leak(machine, "common", 1000))).toEqual([]);
  });

  test("1 Ω trips with the kettle on (8.5 A over one pole of the RCD drives some 30 mA), and when the motor starts", () => {
    const kettleAmps = 2000 / 233;
    const byHand = (1000 * kettleAmps * nominal("rcd.neutral")) / (1 + loop);
    within(leakMilliamps(runner, leak(machine, "common", 1), "kettle@end"), byHand);
    expect(tripsIn(runner, leak(machine, "common", 1))).toEqual(["kettle", "turn", "heat"]);
  });

  test("50 Ω trips at the motor's start (about 5 A lift the neutral), though only 16 mA would flow once it runs", () => {
    within(leakMilliamps(runner, leak(machine, "common", 50), "turn@now"), (1000 * 4.9 * neutralOhms) / (50 + loop));
    expect(leakMilliamps(runner, leak(machine, "common", 50), "turn@end")).toBeLessThan(20);
    expect(tripsIn(runner, leak(machine, "common", 50))).toEqual(["turn", "heat"]);
  });

  test("a coil sagged to the case at its middle: 1 to 2 mA standing, far over 30 mA at the motor's start", () => {
    const sagged = leak(machine, "mid1", 1);
    expect(leakMilliamps(runner, sagged, "plugged-in@end")).toBeGreaterThan(0.5);
    expect(leakMilliamps(runner, sagged, "plugged-in@end")).toBeLessThan(2);
    expect(leakMilliamps(runner, sagged, "turn@now")).toBeGreaterThan(60);
    expect(tripsIn(runner, sagged)).toEqual(["turn", "heat"]);
  });
});

test("running contact open and one-shot blown look the same live; only the dead halving parts them", () => {
  const runner = openRunner(withRunContact);
  const { machine } = runner;
  const bench = new DeadBench(machine);
  const seen = ["run-contact.contact", "one-shot.contact"].map((id) => {
    const effects: Effect[] = [{ does: "open", element: element(machine, id) }];
    const [member] = runner.run(effects).pictures.get("heat@end")?.members ?? [];
    const solved = runner.restore(effects, member, "heat@end");
    const ohmmeter = bench.prepare(effects, { pulled: ["X3"], freed: [], hands: new Map() });
    return {
      turns: member.states[stateSet(machine, "motor")],
      watts: Math.round(solved.plugWatts()),
      volts: Math.round(solved.live.between(node(machine, "X3.1"), node(machine, "X3.3"))),
      branch: ohmmeter.ohms(node(machine, "X3.1"), node(machine, "X3.3")),
      toContact: ohmmeter.ohms(node(machine, "X3.1"), node(machine, "run-contact.a")),
    };
  });
  const [contact, blown] = seen;
  expect({ ...contact, toContact: 0 }).toEqual({ ...blown, toContact: 0 });
  expect(contact.volts).toBeGreaterThan(220);
  expect(contact.watts).toBeLessThan(300);
  expect(contact.branch).toBe(Number.POSITIVE_INFINITY);
  expect(contact.toContact).toBeCloseTo(22.4, 0);
  expect(blown.toContact).toBe(Number.POSITIVE_INFINITY);
});

test("a good machine with a running contact reads OL dead at X3.1 to X3.3: the contact is open at rest", () => {
  const ohmmeter = new DeadBench(withRunContact).prepare([], { pulled: ["X3"], freed: [], hands: new Map() });
  expect(ohmmeter.ohms(node(withRunContact, "X3.1"), node(withRunContact, "X3.3"))).toBe(Number.POSITIVE_INFINITY);
});

test("neutral lost at the plug: nothing runs, yet 225 V and more stand between the machine's neutral and earth", () => {
  const runner = openRunner(withDrumSensor);
  const { machine } = runner;
  const effects: Effect[] = [{ does: "open", element: element(machine, "joint plug.N.contact") }];
  const run = runner.run(effects);
  const [member] = run.pictures.get("heat@end")?.members ?? [];
  const { live } = runner.restore(effects, member, "heat@end");
  expect(run.reached).not.toContain("turn");
  expect(live.between(node(machine, "X3.1"), node(machine, "X3.3"))).toBeLessThan(1);
  expect(live.between(node(machine, "plug.N"), node(machine, "plug.PE"))).toBeGreaterThan(220);
});

describe("a heater switched on both poles", () => {
  const machine = shippedMachine("tumble-dryer", {
    ...answers,
    control: "board with two heater poles",
    "motor-watch": "drum sensor on the board",
  });

  test("with the neutral relay pole dead both sides of the heater stand at 225 V to the case, with 0 V across", () => {
    const runner = openRunner(machine);
    const effects: Effect[] = [{ does: "open", element: element(machine, "heat-relay-n.contact1") }];
    const [member] = runner.run(effects).pictures.get("heat@end")?.members ?? [];
    const { live } = runner.restore(effects, member, "heat@end");
    expect(live.between(node(machine, "X3.1"), node(machine, "X3.3"))).toBeLessThan(0.1);
    expect(live.between(node(machine, "X3.1"), node(machine, "plug.PE"))).toBeGreaterThan(220);
    expect(live.between(node(machine, "X3.3"), node(machine, "plug.PE"))).toBeGreaterThan(220);
  });

  test("insulation at the plug, line and neutral joined, does not reach its 100 kΩ leak; with one pole switched it does", () => {
    const joined = { pulled: [], freed: [], hands: new Map(), joined: ["plug.L", "plug.N"] };
    const measured = (of: Machine) =>
      new DeadBench(of).prepare([leak(of, "mid1", 1e5)], joined).ohms(node(of, "plug.L"), node(of, "plug.PE"));
    expect(measured(machine)).toBeGreaterThan(1e8);
    expect(measured(withDrumSensor)).toBeLessThan(100_100);
    expect(measured(withDrumSensor)).toBeGreaterThan(99_900);
  });
});

test("every severity of every mode runs to its end, with pictures of every step whose weights sum to 1", () => {
  for (const machine of [withDrumSensor, withRunContact]) {
    const runner = openRunner(machine);
    for (const mode of modesOf(machine)) {
      for (const severity of mode.severities) {
        const run = runner.run(severity.effects);
        for (const [key, { members, hunts }] of run.pictures) {
          expect(hunts, `${mode.id} ${key}`).not.toBe("now");
          const weight = members.reduce((sum, member) => sum + member.weight, 0);
          expect(Math.abs(weight - 1), `${mode.id} ${key}`).toBeLessThan(1e-12);
        }
      }
    }
  }
});

/** The plain way: every condition asked anew, one solution kept. */
class PlainLive extends Live {
  override holds(condition: Evaluate): boolean {
    const value = condition(this);
    return value !== 0 && !Number.isNaN(value);
  }
}

test("remembered conditions, kept solutions and runs moved along a chain give the very runs that running anew gives", () => {
  for (const machine of [withDrumSensor, withRunContact]) {
    const network = networkOf(machine);
    const circuit = compile(network.shape);
    const guard = { relative: 1e-6, floorVolts: 1e-8 };
    const powers = [{ ac: circuit.ac(guard), dc: circuit.dc(guard) }];
    const plain = new Programme(new PlainLive(network, new Solutions(network, () => powers.pop())));
    const runner = openRunner(machine);
    plain.compareWith(runner.goods);
    for (const mode of modesOf(machine)) {
      const { effects } = mode.severities[0];
      const quick = runner.run(effects);
      const { run: slow } = plain.run(effects);
      expect(quick.said, mode.id).toEqual(slow.said);
      expect(quick.wouldOpen, mode.id).toEqual(slow.wouldOpen);
      for (const [key, { members }] of quick.pictures) {
        const others = slow.pictures.get(key)?.members ?? [];
        expect(
          members.map(({ states }) => states),
          `${mode.id} ${key}`,
        ).toEqual(others.map(({ states }) => states));
        const farthest = members.flatMap(({ variables }, m) =>
          [...variables].map((value, v) => Math.abs(value - others[m].variables[v])),
        );
        expect(Math.max(...farthest), `${mode.id} ${key}`).toBeLessThan(1e-6);
      }
    }
  }
});

test("any two faults at once run to an end, the same whichever is named first, on 150 seeded pairs", () => {
  const runner = openRunner(withRunContact);
  const severities = modesOf(withRunContact).flatMap((mode) => mode.severities);
  const any = fc.integer({ min: 0, max: severities.length - 1 }).map((index) => severities[index].effects);
  fc.assert(
    fc.property(any, any, (one, other) => {
      const forth = runner.run([...one, ...other]);
      const back = runner.run([...other, ...one]);
      expect(back).toEqual(forth);
      for (const { members } of forth.pictures.values()) {
        expect(Math.abs(members.reduce((sum, { weight }) => sum + weight, 0) - 1)).toBeLessThan(1e-12);
      }
    }),
    { seed: 7, numRuns: 150 },
  );
});
