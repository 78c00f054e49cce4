import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Effect } from "../../src/core/fault/index.ts";
import { openRunner, type Runner } from "../../src/core/run/index.ts";
import {
  assemble,
  combinations,
  type Library,
  type Machine,
  readLibrary,
  readSheet,
  type Sheet,
} from "../../src/core/sheet/index.ts";

const data = new URL("../../data/", import.meta.url);

function textsOf(folder: string): ReadonlyMap<string, string> {
  const place = fileURLToPath(new URL(`${folder}/`, data));
  const files = readdirSync(place).filter((name) => name.endsWith(".yaml"));
  return new Map(files.map((name) => [name, readFileSync(`${place}${name}`, "utf8")]));
}

/** The shipped library and the shipped tumble dryer family. */
export function readDryer(): ReturnType<typeof readShipped> {
  return readShipped("tumble-dryer");
}

/** The shipped library and a shipped family, by the name of its sheet. */
export function readShipped(name: string): { readonly library: Library; readonly sheet: Sheet } {
  const library = readLibrary(textsOf("kinds"), textsOf("houses"), textsOf("pieces"));
  if (!library.ok) throw new Error(`the shipped kinds do not read: ${JSON.stringify(library.issues)}`);
  const text = readFileSync(fileURLToPath(new URL(`sheets/${name}.yaml`, data)), "utf8");
  const sheet = readSheet(text, `${name}.yaml`, library.value);
  if (!sheet.ok) throw new Error(`the shipped ${name} does not read: ${JSON.stringify(sheet.issues)}`);
  return { library: library.value, sheet: sheet.value };
}

/** One machine of the family by the variants that matter, with names instead of indices. */
export class Dryer {
  readonly machine: Machine;
  readonly runner: Runner;

  constructor({ library, sheet }: ReturnType<typeof readDryer>, answers: Readonly<Record<string, string>>) {
    const wanted = Object.entries(answers);
    const found = combinations(sheet, new Map()).find(({ choice }) =>
      wanted.every(([slot, variant]) => choice.get(slot) === variant),
    );
    if (found === undefined) throw new Error(`no dryer with ${JSON.stringify(answers)}`);
    const machine = assemble(sheet, library, found.choice);
    if (!machine.ok) throw new Error(`it does not assemble: ${JSON.stringify(machine.issues)}`);
    this.machine = machine.value;
    this.runner = openRunner(machine.value);
  }

  element(id: string): number {
    const index = this.machine.elements.findIndex((element) => element.id === id);
    if (index < 0) throw new Error(`no element ${id}`);
    return index;
  }

  node(point: string): number {
    const found = this.machine.points.find(({ id }) => id === point);
    if (found === undefined) throw new Error(`no point ${point}`);
    return found.node;
  }

  stuck(part: string, state: string): Effect {
    const set = this.machine.stateSets.findIndex(
      (set) => this.machine.parts[set.part]?.id === part && set.states.includes(state),
    );
    if (set < 0) throw new Error(`no state ${state} of ${part}`);
    return { does: "stuck", set, state: this.machine.stateSets[set]?.states.indexOf(state) ?? 0 };
  }

  /** A picture of the machine with these effects (its longest member), solved again. */
  at(effects: readonly Effect[], key: string) {
    const members = this.runner.run(effects).pictures.get(key)?.members ?? [];
    const longest = members.toSorted((a, b) => b.weight - a.weight)[0];
    if (longest === undefined) throw new Error(`no picture ${key}`);
    return this.runner.restore(effects, longest, key);
  }

  /** Whether a part with this name stands in this state at that moment. */
  stands(effects: readonly Effect[], key: string, part: string, state: string): boolean {
    const set = this.machine.stateSets.findIndex(
      (each) => this.machine.parts[each.part]?.id === part && each.states.includes(state),
    );
    return this.at(effects, key).live.state(set) === this.machine.stateSets[set]?.states.indexOf(state);
  }
}
