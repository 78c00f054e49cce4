import type { ElementWhat, Evaluate, Haste, KindInstance, ModeRule } from "../../src/core/part/index.ts";
import type { Rated } from "../../src/core/quantity/index.ts";
import type { Machine, Part, Step } from "../../src/core/sheet/index.ts";

type Mutable<T> = { -readonly [K in keyof T]: T[K] };

const rated = (nominal: number): Rated => ({ nominal, lo: nominal, hi: nominal, spread: "exact" });

/** Lays a small machine by hand, for tests of what comes after the sheet. Names are made when first used. */
export class MachineBuilder {
  readonly #nodes: string[] = [];
  readonly #parts: Mutable<Part>[] = [];
  readonly #elements: Machine["elements"][number][] = [];
  readonly #stateSets: { -readonly [K in keyof Machine["stateSets"][number]]: Machine["stateSets"][number][K] }[] = [];
  readonly #variables: Machine["variables"][number][] = [];
  readonly #world: Machine["world"][number][] = [];
  readonly #steps: Step[] = [];
  readonly #conditions: Machine["conditions"][number][] = [];
  readonly #causes: Machine["causes"][number][] = [];
  readonly #points: Machine["points"][number][] = [];
  readonly #plugs: Machine["plugs"][number][] = [];
  readonly #goods: Evaluate[] = [];

  node(name: string): number {
    const found = this.#nodes.indexOf(name);
    return found >= 0 ? found : this.#nodes.push(name) - 1;
  }

  part(
    id: string,
    options: Partial<Pick<Part, "share" | "says" | "joint">> & { modes?: readonly ModeRule[] } = {},
  ): number {
    const found = this.#parts.findIndex((part) => part.id === id);
    if (found >= 0) return found;
    const { modes = [], share = 1, says = id, joint } = options;
    const instance: KindInstance = {
      kind: id,
      says,
      ratings: new Map(),
      words: new Map(),
      conditions: new Map(),
      pins: new Map(),
      elements: [],
      stateSets: [],
      knobs: new Map(),
      gives: new Map(),
      modes,
      remedies: [],
      bench: [],
      hazards: [],
      benchHazards: [],
      whenAbsent: "removed",
      share,
    };
    const part = { id, says, instance, pins: new Map(), elements: [], stateSets: [], knobs: new Map(), share };
    return this.#parts.push(joint === undefined ? part : { ...part, joint }) - 1;
  }

  /** An element `part.name`: one value, or one for each state of the part's set `set` (absent = open). */
  element(
    id: string,
    what: ElementWhat,
    from: string,
    to: string,
    value: number | Readonly<Record<string, number>>,
    set?: number,
  ): number {
    const part = this.part(id.slice(0, id.lastIndexOf(".")));
    const numbers =
      typeof value === "number"
        ? [value]
        : this.#stateSets[set ?? 0].states.map((state) => value[state] ?? Number.POSITIVE_INFINITY);
    const index = this.#elements.push({
      id,
      part,
      what,
      a: this.node(from),
      b: this.node(to),
      set: typeof value === "number" ? -1 : (set ?? 0),
      values: numbers.map((nominal) => ({ nominal, of: () => nominal, slopes: [] })),
    });
    this.#parts[part].elements = [...this.#parts[part].elements, index - 1];
    return index - 1;
  }

  /** A set of states of a part; the first is at rest. */
  states(id: string, states: readonly string[], keeps = false): number {
    const part = this.part(id);
    const index = this.#stateSets.push({ part, name: id, states, keeps, moves: [] }) - 1;
    this.#parts[part].stateSets = [...this.#parts[part].stateSets, index];
    return index;
  }

  move(set: number, to: string, when: Evaluate, takes: Haste = "now", permanent = false): void {
    const { states, moves } = this.#stateSets[set];
    this.#stateSets[set].moves = [...moves, { to: states.indexOf(to), when, takes, permanent }];
  }

  variable(id: string, role: Machine["variables"][number]["role"], initial = 0): number {
    return this.#variables.push({ id, role, initial }) - 1;
  }

  world(id: string, is: Evaluate, takes: "seconds" | "minutes", start = 0, keeps?: "lowest" | "highest"): number {
    const variable = this.variable(id, "world", start);
    this.#world.push(keeps === undefined ? { variable, is, takes } : { variable, is, takes, keeps });
    return variable;
  }

  step(id: string, rest: Partial<Step> = {}): void {
    this.#steps.push({ id, drives: [], entersIf: [], needs: [], timeOuts: [], ...rest });
  }

  condition(id: string, set: Machine["conditions"][number]["set"], after?: string): void {
    this.#conditions.push(after === undefined ? { id, set } : { id, set, after });
  }

  cause(id: string, variable: number, to: readonly number[], share = 1): void {
    this.#causes.push({
      id,
      says: id,
      group: "mechanical",
      share,
      sets: [{ variable, to }],
      remedies: [],
      measures: [],
    });
  }

  point(id: string, node: string): void {
    this.#points.push({ id, node: this.node(node), says: id, live: "handheld" });
  }

  plug(id: string, elements: readonly number[]): void {
    this.#plugs.push({ id, of: id, ways: elements.length, pinOneSays: "first", elements, pins: [] });
  }

  /** A formula asked "of good"; gives its index. */
  good(formula: Evaluate): number {
    return this.#goods.push(formula) - 1;
  }

  build(more: Partial<Machine> = {}): Machine {
    return {
      title: "hand-built",
      choice: new Map(),
      nodes: this.#nodes,
      parameters: [],
      parts: this.#parts,
      elements: this.#elements,
      stateSets: this.#stateSets,
      variables: this.#variables,
      world: this.#world,
      steps: this.#steps,
      conditions: this.#conditions,
      signs: [],
      causes: this.#causes,
      links: [],
      whyOpen: new Map(),
      codes: new Map(),
      points: this.#points,
      plugs: this.#plugs,
      assemblies: [],
      access: [],
      serviceOutputs: this.#variables.flatMap(({ role }, index) => (role === "output" ? [index] : [])),
      quantities: new Map(),
      goods: this.#goods,
      plugElements: [],
      mains: this.#elements.flatMap(({ what }, index) => (what === "V~" ? [index] : [])),
      supply: { house: "single 230", class: "I", hertz: 50, volts: rated(230).nominal },
      weightJobs: 40,
      ...more,
    };
  }
}

/** A time-out: what is done when its condition still holds after so many seconds. */
export function timeOut(
  id: string,
  condition: Evaluate,
  afterSeconds: number,
  actions: Step["timeOuts"][number]["then"],
): Step["timeOuts"][number] {
  // biome-ignore lint/suspicious/noThenProperty: the sheet's own word, and no promise is near
  return { id, if: condition, afterSeconds, then: actions };
}
