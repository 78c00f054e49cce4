// What was ambiguous in a sheet, settled by a rule, and looked at on an assembled machine: who withholds what when the
// door is open, what comes first, what a run never does. Expectations follow from the rules, no figures from outside.
import { describe, expect, test } from "vitest";
import { type Effect, modesOf } from "../../src/core/fault/index.ts";
import { openRunner, type Runner } from "../../src/core/run/index.ts";
import { assemble, combinations, type Machine } from "../../src/core/sheet/index.ts";
import { shippedLibrary } from "../machines/shipped.ts";
import { machineOf, sheetOf, smallDryerText } from "./read.ts";

const library = shippedLibrary();
const sheet = sheetOf(smallDryerText, library);

/** Value of a quantity of the sheet at a moment of a run, mean over the members of a hunt. */
function mean(machine: Machine, runner: Runner, effects: readonly Effect[], key: string, quantity: string): number {
  const evaluate = machine.quantities.get(quantity);
  const picture = runner.run(effects).pictures.get(key);
  if (evaluate === undefined || picture === undefined) throw new Error(`no ${quantity} at ${key}`);
  return picture.members.reduce(
    (sum, member) => sum + member.weight * evaluate(runner.restore(effects, member, key).live),
    0,
  );
}

/** Effects of the named mode, at its severity of that number. */
function fault(machine: Machine, id: string, severity = 0): readonly Effect[] {
  const mode = modesOf(machine).find((one) => one.id === id);
  if (mode === undefined) throw new Error(`no mode ${id}`);
  return mode.severities[severity]?.effects ?? [];
}

const input = (machine: Machine, id: string, to: number): Effect => ({
  does: "set",
  variable: machine.variables.findIndex((variable) => variable.id === id),
  to,
});

test("in all 28 combinations a good machine reaches its end, says nothing, trips nothing and heats within its plate", () => {
  for (const { choice } of combinations(sheet)) {
    const assembled = assemble(sheet, library, choice);
    if (!assembled.ok) throw new Error(assembled.issues[0]?.found);
    const machine = assembled.value;
    const runner = openRunner(machine);
    expect(runner.healthy.reached).toEqual(["plugged-in", "turn", "heat", "cool"]);
    expect(runner.healthy.said).toEqual([]);
    expect(runner.healthy.wouldOpen).toEqual([]);
    const heat = mean(machine, runner, [], "heat@minutes", "heat");
    expect(heat).toBeGreaterThan(0.85 * mean(machine, runner, [], "heat@minutes", "rated"));
    expect(mean(machine, runner, [], "turn@minutes", "heat")).toBeLessThan(1);
  }
});

describe("a board with one heater pole", () => {
  const machine = machineOf(sheet, library, {
    control: "board, one heater pole",
    "motor-watch": "drum magnet seen by the board",
    stages: "one",
  });
  const runner = openRunner(machine);
  const heat = (effects: readonly Effect[], moment: string): number =>
    mean(machine, runner, effects, `heat@${moment}`, "heat");

  test("the magnet's guard is read one tick late: entered from standing, no heat at now, all of it at seconds", () => {
    expect(smallDryerText.match(/drives: \{ motor-out \}/)).not.toBeNull();
    // Without its first drive the machine stands in turn, and the motor starts only in heat.
    const standing = sheetOf(smallDryerText.replace("drives: { motor-out }", "drives: {}"), library);
    const other = machineOf(standing, library, Object.fromEntries(machine.choice));
    const from = openRunner(other);
    expect(mean(other, from, [], "heat@now", "heat")).toBeLessThan(1);
    expect(mean(other, from, [], "heat@seconds", "heat")).toBeGreaterThan(2000);
    expect(heat([], "now")).toBeGreaterThan(2000);
  });

  test("the belt off: the motor turns, the drum is not seen, and only the heat is withheld", () => {
    const off = [input(machine, "belt", 0)];
    expect(heat(off, "minutes")).toBeLessThan(1);
    expect(runner.run(off).said).toEqual([{ step: "heat", says: "cold" }]);
  });

  test("the door open stops everything and is said; the start key dead refuses the first step", () => {
    expect(runner.run([input(machine, "door", 0)]).said[0]?.says).toBe("door");
    expect(runner.run([input(machine, "start", 0)]).said[0]?.says).toBe("no answer");
  });

  test("the NTC open is a time-out: it stops, says sensor, and is locked out", () => {
    const run = runner.run(fault(machine, "ntc/open"));
    expect(run.said.map(({ says }) => says)).toContain("sensor");
    expect(heat(fault(machine, "ntc/open"), "end")).toBeLessThan(1);
  });

  test("lint at 0.15 of the air opens the cut-out again and again, and the one-shot would open but does not", () => {
    const lint = fault(machine, "lint", 0);
    expect(heat(lint, "seconds")).toBeGreaterThan(2000);
    expect(heat(lint, "minutes")).toBeLessThan(0.95 * heat([], "minutes"));
    const run = runner.run(lint);
    const fuse = machine.stateSets.findIndex(({ part }) => machine.parts[part]?.id === "one-shot");
    const members = run.pictures.get("heat@end")?.members ?? [];
    expect(members.every(({ states }) => states[fuse] === 0)).toBe(true);
  });

  test("the one-shot blown by its link: turns, and stays cold", () => {
    const blown = fault(machine, "one-shot/blown (victim)");
    expect(heat(blown, "minutes")).toBeLessThan(1);
    expect(runner.run(blown).reached).toContain("cool");
  });
});
