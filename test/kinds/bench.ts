import { readdirSync, readFileSync } from "node:fs";
import { type Effect, modesOf } from "../../src/core/fault/index.ts";
import { type Checked, sentence } from "../../src/core/issue/index.ts";
import { deadCircuit, openRunner, type Solved } from "../../src/core/run/index.ts";
import { assemble, type Library, readLibrary, readSheet } from "../../src/core/sheet/index.ts";

/** A few parts across the mains (wires L and N behind the filter-less terminals), as a sheet of one step. */
export interface Bench {
  /** `pump: {kind: drain-pump, a: L, b: N}`, a line each. */
  readonly parts: readonly string[];
  readonly inputs?: Readonly<Record<string, number>>;
  /** Names to ask for: `pumps: pump.pumps`. */
  readonly quantities?: Readonly<Record<string, string>>;
}

function texts(folder: string): ReadonlyMap<string, string> {
  const url = new URL(`../../data/${folder}/`, import.meta.url);
  return new Map(readdirSync(url).map((file) => [file, readFileSync(new URL(file, url), "utf8")]));
}

function must<T>(checked: Checked<T>): T {
  if (!checked.ok) throw new Error(checked.issues.map(sentence).join("\n"));
  return checked.value;
}

let library: Library | undefined;

/** The parts put together, with what one would read of them, good or with a mode of theirs. */
export function benchOf(bench: Bench) {
  library ??= must(readLibrary(texts("kinds"), texts("houses")));
  const map = (entries: Readonly<Record<string, string | number>> = {}): string =>
    `{${Object.entries(entries)
      .map(([name, value]) => `${name}: ${typeof value === "number" ? value : `"${value}"`}`)
      .join(", ")}}`;
  const text = [
    "format: faultwright-sheet/1",
    "sheet: bench",
    "source: I",
    "supply: {house: single 230, class: II}",
    `inputs: ${map(bench.inputs)}`,
    "parts:",
    ...bench.parts.map((part) => `  ${part}`),
    `quantities: ${map(bench.quantities)}`,
    "access: {open: {min: 1/1, position: stands, may-run: yes}}",
    "steps: {plugged-in: {watts: 0..3000}}",
  ].join("\n");
  const machine = must(assemble(must(readSheet(text, "bench.yaml", library)), library, new Map()));
  const runner = openRunner(machine);
  const modes = modesOf(machine);
  const effectsOf = (mode: string | undefined, severity: number): readonly Effect[] => {
    if (mode === undefined) return [];
    const found = modes.find((candidate) => candidate.id === mode);
    const effects = found?.severities.at(severity)?.effects;
    if (effects === undefined) throw new Error(`no ${mode} among ${modes.map((each) => each.id).join(", ")}`);
    return effects;
  };
  return {
    machine,
    modes,
    /** After minutes of power, with severity `severity` (from 0; -1 the last) of a mode such as `pump/jammed`. */
    on(mode?: string, severity = 0, moment: "now" | "seconds" | "minutes" = "minutes") {
      const effects = effectsOf(mode, severity);
      const run = runner.run(effects);
      const picture = run.pictures.get(`plugged-in@${moment}`);
      if (picture === undefined) throw new Error("the step was not reached");
      /** Mean over the members of a picture that hunts. */
      const mean = (read: (solved: Solved) => number): number =>
        picture.members.reduce(
          (sum, member) => sum + member.weight * read(runner.restore(effects, member, `plugged-in@${moment}`)),
          0,
        );
      return {
        watts: mean((solved) => solved.plugWatts()),
        hunts: run.hunts.length,
        asked: (name: string): number => {
          const evaluate = machine.quantities.get(name);
          if (evaluate === undefined) throw new Error(`no quantity ${name}`);
          return mean((solved) => evaluate(solved.live));
        },
      };
    },
    /** Ohms between two terminals, plug out: `pump.a`, `pump.b`. */
    ohms(from: string, to: string, mode?: string, severity = 0): number {
      const dead = deadCircuit(machine, effectsOf(mode, severity), { pulled: ["plug"], freed: [], hands: new Map() });
      const node = (id: string): number => {
        const point = machine.points.find((candidate) => candidate.id === id);
        if (point === undefined) throw new Error(`no point ${id} among ${machine.points.map((each) => each.id)}`);
        return point.node;
      };
      return dead.ohms(node(from), node(to));
    },
  };
}
