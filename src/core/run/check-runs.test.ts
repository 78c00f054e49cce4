import { expect, test } from "vitest";
import { MachineBuilder, timeOut } from "../../../test/machines/build.ts";
import { shippedMachine } from "../../../test/machines/shipped.ts";
import { smallDryer } from "../../../test/machines/small-dryer.ts";
import { type Effect, type Mode, modesOf } from "../fault/index.ts";
import type { Rated } from "../quantity/index.ts";
import { checkRuns } from "./index.ts";

const watts = (lo: number, hi: number): Rated => ({ nominal: (lo + hi) / 2, lo, hi, spread: "range" });

function mode(id: string, effects: readonly Effect[], rest: Partial<Mode> = {}): Mode {
  const severities = [{ weight: 1, effects }];
  const words = { says: id, partSays: id, nowAndThen: 0, victim: false };
  return { id, part: 0, cause: -1, parts: [], share: 1, severities, ...words, ...rest };
}

const codes = (issues: readonly { code: string }[]) => [...new Set(issues.map(({ code }) => code))];

test("the small dryer passes with no issue, and its 2.5 kW at the plug miss a band of 2.7 to 3 kW", () => {
  const { machine } = smallDryer();
  expect(checkRuns(machine, [])).toEqual([]);
  const steps = machine.steps.map((step) => (step.id === "heat" ? { ...step, watts: watts(2700, 3000) } : step));
  const [issue] = checkRuns({ ...machine, steps }, []);
  expect(issue.code).toBe("run.healthy.watts");
  expect(issue.at).toEqual(["steps", "heat", "watts"]);
});

test("a good machine that says, stops, trips, opens and hunts is told of each", () => {
  const b = new MachineBuilder();
  const breaker = b.states("breaker", ["shut", "tripped"], true);
  b.move(breaker, "tripped", () => 1);
  const fuse = b.states("fuse", ["whole", "blown"]);
  b.move(fuse, "blown", () => 1, "now", true);
  const flasher = b.states("flasher", ["off", "on"]);
  b.move(flasher, "on", (m) => Number(m.state(flasher) === 0), "minutes");
  b.move(flasher, "off", (m) => Number(m.state(flasher) === 1), "minutes");
  b.step("heat", { timeOuts: [timeOut("t", () => 1, 5, [{ do: "say", says: "sensor" }, { do: "stop" }])] });
  b.step("cool");
  expect(codes(checkRuns(b.build(), []))).toEqual([
    "run.healthy.says",
    "run.healthy.stops",
    "run.healthy.trips",
    "run.healthy.would-open",
    "run.healthy.hunts",
  ]);
});

test("a threshold that 16 in 100 good machines miss is too near; one that none misses is not", () => {
  const checked = (limit: number) => {
    const b = new MachineBuilder();
    b.step("heat", {
      needs: [{ says: "sensor", when: (m) => Number(m.parameter(0) < limit) }],
    });
    const rated: Rated = { nominal: 100, lo: 90, hi: 110, spread: "tolerance" };
    return codes(checkRuns(b.build({ parameters: [{ id: "ntc.R", rated }] }), []));
  };
  expect(checked(105)).toEqual(["run.threshold.near"]);
  expect(checked(125)).toEqual([]);
});

test("a fault that would open a fuse wants a link, and has it", () => {
  const { machine, airway, cutOut } = smallDryer();
  const stuck: Effect[] = [
    { does: "set", variable: airway, to: 0.1 },
    { does: "stuck", set: cutOut, state: 0 },
  ];
  expect(codes(checkRuns(machine, [mode("lint", stuck)]))).toEqual(["run.would-open.no-link"]);
  const links = [{ cause: "lint", victim: "one-shot/blown", p: 0.5 }];
  expect(checkRuns({ ...machine, links }, [mode("lint", stuck, { cause: 0 })])).toEqual([]);
});

test("heat that goes on for good without air is told of, heat behind a working cut-out is not", () => {
  const { machine, airway, cutOut, heater } = smallDryer();
  const named = {
    ...machine,
    quantities: new Map([["heat", (m: { watts(element: number): number }) => m.watts(heater)]]),
    steps: machine.steps.map((step) => ({ ...step, drives: step.drives.map(({ output }) => ({ output })) })),
  };
  const blocked: Effect[] = [{ does: "set", variable: airway, to: 0 }];
  const held: Effect[] = [...blocked, { does: "stuck", set: cutOut, state: 0 }];
  expect(codes(checkRuns(named, [mode("held", held)]))).toContain("run.heat-without-air");
  expect(codes(checkRuns(named, [mode("blocked", blocked)]))).not.toContain("run.heat-without-air");
});

test("a mode that changes nothing is told of, unless it has a look", () => {
  const { machine, heater } = smallDryer();
  const nothing: Effect[] = [{ does: "factor", element: heater, by: 1.0001 }];
  expect(codes(checkRuns(machine, [mode("heater/a little tired", nothing)]))).toEqual(["run.mode.unseen"]);
  expect(checkRuns(machine, [mode("heater/a little tired", nothing, { looks: "dull" })])).toEqual([]);
  expect(checkRuns(machine, [mode("heater/open", [{ does: "open", element: heater }])])).toEqual([]);
});

test("the shipped dryer has no error that only running shows", () => {
  const machine = shippedMachine("tumble-dryer");
  const errors = checkRuns(machine, modesOf(machine)).filter(({ severity }) => severity === "error");
  expect(errors).toEqual([]);
});
