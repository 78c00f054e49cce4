import type { Mode } from "../fault/index.ts";
import type { Issue } from "../issue/index.ts";
import { type Machine, matchesFault } from "../sheet/index.ts";
import { checkDrawn, checkHealthy } from "./check-healthy.ts";
import { DeadBench } from "./dead.ts";
import { Observables } from "./observables.ts";
import type { Run } from "./picture.ts";
import { Runner } from "./runner.ts";

/**
 * What only running a sheet's machine can show: a healthy run that says, trips, hunts or misses its watts; a good machine
 * near a threshold; a mode that opens a permanent protector without a link, chatters, heats without air, or changes nothing.
 *
 * @source sheet-format 5
 */
export function checkRuns(machine: Machine, modes: readonly Mode[]): Issue[] {
  const runner = new Runner(machine);
  return [
    ...checkHealthy(runner),
    ...checkDrawn(runner),
    ...modes.flatMap((mode) => checkMode(runner, mode)),
    ...checkUnseen(runner, modes),
  ];
}

function checkMode(runner: Runner, mode: Mode): Issue[] {
  const { machine } = runner;
  const runs = mode.severities.map((severity) => ({ severity, run: runner.run(severity.effects) }));
  const issues: Issue[] = [];
  const add = (code: string, severity: Issue["severity"], found: string, expected: string, hint: string): void => {
    issues.push({ code, severity, at: ["modes", mode.id], found, expected, hint });
  };
  const chatter = runs.flatMap(({ run }) => [...run.pictures.values()]).find(({ hunts }) => hunts === "now");
  if (chatter !== undefined) {
    add(
      "run.chatter",
      "error",
      `contacts that go round and round at once in ${chatter.step}`,
      "a machine that settles",
      "give the moves of the part hysteresis, or the guard a slower condition",
    );
  }
  for (const part of new Set(runs.flatMap(({ run }) => run.wouldOpen))) {
    const { id } = machine.parts[part];
    if (mode.parts.includes(part) || isLinked(machine, mode, id)) continue;
    add(
      "run.would-open.no-link",
      "warning",
      `a run that would open ${id}`,
      `a link from ${mode.id} to a mode of ${id}`,
      "add it to links with its chance, or guard the step",
    );
  }
  if (runs.some(({ severity, run }) => heatsWithoutAir(runner, severity.effects, run))) {
    add(
      "run.heat-without-air",
      "warning",
      "heat that goes on without air, and no protector acts",
      "heat only with air",
      "look at the guards of heat and at what its protectors feel",
    );
  }
  return issues;
}

function isLinked(machine: Machine, mode: Mode, protector: string): boolean {
  const name = mode.id.slice(mode.id.indexOf("/"));
  const causes = mode.cause >= 0 ? [mode.id] : mode.parts.map((part) => `${machine.parts[part].id}${name}`);
  return machine.links.some(
    (link) => link.victim.startsWith(`${protector}/`) && causes.some((cause) => matchesFault(link.cause, cause)),
  );
}

/** The sheet's own words: quantity `heat` in watts, world value `air` as a share of good. */
function heatsWithoutAir(runner: Runner, effects: Mode["severities"][number]["effects"], run: Run): boolean {
  const heat = runner.machine.quantities.get("heat");
  const air = runner.machine.variables.findIndex(({ id, role }) => id === "air" && role === "world");
  if (heat === undefined || air < 0) return false;
  return runner.machine.steps.some(({ id }) => {
    const key = `${id}@end`;
    const members = run.pictures.get(key)?.members ?? [];
    return (
      members.length > 0 &&
      members.every((member) => member.variables[air] < 0.05 && heat(runner.restore(effects, member, key).live) > 100)
    );
  });
}

function checkUnseen(runner: Runner, modes: readonly Mode[]): Issue[] {
  const { machine } = runner;
  const observables = new Observables(runner, new DeadBench(machine));
  return modes
    .filter((mode) => !isNamed(machine, mode) && !mode.severities.some(({ effects }) => observables.shows(effects)))
    .map((mode) => ({
      code: "run.mode.unseen",
      severity: "warning",
      at: ["modes", mode.id],
      found: "a way of failing that changes no picture, no reading and no look",
      expected: "something by which it can be told from a good machine",
      hint: "add what it looks like, a sign or a measurement; or leave the mode out",
    }));
}

/** A look, a measurement or the table of a sign speaks of it. */
function isNamed(machine: Machine, mode: Mode): boolean {
  if (mode.seen !== undefined || mode.looks !== undefined) return true;
  const cause = machine.causes[mode.cause];
  if (cause !== undefined && (cause.look !== undefined || cause.measures.length > 0)) return true;
  return machine.signs.some(
    ({ rule }) => rule.kind === "table" && [...rule.chance.keys()].some((name) => matchesFault(name, mode.id)),
  );
}
