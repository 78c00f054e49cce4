import type { Ask, Evaluate, Expression, Resolver } from "../part/index.ts";
import type { Build } from "./build.ts";
import type { Part } from "./machine.ts";

/** Nodes by the names a sheet may use in `volts from A to B`. */
export interface NodeNames {
  readonly ofPoint: (id: string) => number | undefined;
  readonly ofWire: (wire: string) => number | undefined;
  readonly inPart: (part: string, place: string) => number | undefined;
}

/** What a formula of this machine may refer to; made once a machine, with the formulas that others use. */
export class Names {
  readonly #build: Build;
  readonly #nodes: NodeNames;
  readonly #choice: ReadonlyMap<string, string>;
  readonly #absent: ReadonlySet<string>;
  readonly #quantities: ReadonlyMap<string, Expression>;
  readonly #compiled = new Map<string, Evaluate | "being compiled">();
  /** Groups for `hottest`: name → elements. */
  readonly #groups: ReadonlyMap<string, readonly number[]>;
  readonly #take: (expression: Expression, resolver: Resolver) => Evaluate | undefined;

  constructor(given: {
    readonly build: Build;
    readonly nodes: NodeNames;
    readonly choice: ReadonlyMap<string, string>;
    readonly absent: ReadonlySet<string>;
    readonly quantities: ReadonlyMap<string, Expression>;
    readonly groups: ReadonlyMap<string, readonly number[]>;
    readonly take: (expression: Expression, resolver: Resolver) => Evaluate | undefined;
  }) {
    this.#build = given.build;
    this.#nodes = given.nodes;
    this.#choice = given.choice;
    this.#absent = given.absent;
    this.#quantities = given.quantities;
    this.#groups = given.groups;
    this.#take = given.take;
  }

  /** Names as the sheet knows them: inputs, world, quantities, words that parts give, points and wires. */
  readonly ofSheet: Resolver = {
    resolve: (ask) => this.#resolve(ask),
    known: (ask) => this.#known(ask),
  };

  /** Names as a part's kind knows them: its ratings, elements, states and knobs first, then what the sheet knows. */
  ofPart(part: Part): Resolver {
    return {
      resolve: (ask) => this.#resolveInPart(part, ask),
      known: (ask) => this.#knownInPart(part, ask),
    };
  }

  /** A quantity of the sheet; `undefined` when it has none of that name, or it needs itself. */
  quantity(name: string): Evaluate | undefined {
    const expression = this.#quantities.get(name);
    return expression && this.#once(`quantity ${name}`, expression, this.ofSheet);
  }

  /** Compiles a formula that others refer to once; one that needs itself has no value, one that is wrong is said once. */
  #once(key: string, expression: Expression, resolver: Resolver): Evaluate | undefined {
    const known = this.#compiled.get(key);
    if (known !== undefined) return known === "being compiled" ? undefined : known;
    this.#compiled.set(key, "being compiled");
    const evaluate = this.#take(expression, resolver) ?? (() => 0);
    this.#compiled.set(key, evaluate);
    return evaluate;
  }

  #resolve(ask: Ask): Evaluate | number | undefined {
    switch (ask.for) {
      case "value":
        return this.#value(ask.name, ask.current);
      case "between": {
        const [from, to] = [this.#node(ask.from), this.#node(ask.to)];
        return from === undefined || to === undefined ? undefined : betweenNodes(from, to, ask.current);
      }
      case "cross":
      case "apart":
        return pairOf(ask.for, this.#build.elementIndex.get(ask.a), this.#build.elementIndex.get(ask.b));
      case "state":
        return ask.subject === undefined ? undefined : this.#stateOf(ask.subject, ask.phrase);
      case "hottest": {
        const elements = this.#groups.get(ask.group);
        return elements && hottestOf(elements);
      }
      case "good": {
        const index = this.#build.good(ask.text, ask.evaluate);
        return (moment) => moment.good(index);
      }
    }
  }

  #value(name: string, current: "~" | "=" | undefined): Evaluate | number | undefined {
    const variable = this.#build.variableIndex.get(name);
    if (variable !== undefined) return (moment) => moment.variable(variable);
    if (this.#quantities.has(name)) return this.quantity(name);
    const dot = name.indexOf(".");
    if (dot < 0) return undefined;
    const [owner, word] = [name.slice(0, dot), name.slice(dot + 1)];
    if (this.#absent.has(owner)) return 0;
    const part = this.#part(owner);
    // From outside, the words that a part gives go before its ratings of the same name.
    return part && (this.#given(part, word) ?? this.#valueInPart(part, word, current));
  }

  #given(part: Part, word: string): Evaluate | undefined {
    const given = part.instance.gives.get(word);
    return given && this.#once(`gives ${part.id}.${word}`, given, this.ofPart(part));
  }

  #stateOf(subject: string, phrase: string): Evaluate | number | undefined {
    const chosen = this.#choice.get(subject);
    if (chosen !== undefined) return chosen === phrase ? 1 : 0;
    if (this.#absent.has(subject)) return 0;
    const part = this.#part(subject);
    return part && this.#stateInPart(part, phrase);
  }

  #resolveInPart(part: Part, ask: Ask): Evaluate | number | undefined {
    switch (ask.for) {
      case "value":
        return this.#valueInPart(part, ask.name, ask.current) ?? this.#inputOrWorld(ask.name);
      case "between": {
        const [from, to] = [this.#nodes.inPart(part.id, ask.from), this.#nodes.inPart(part.id, ask.to)];
        return from === undefined || to === undefined ? undefined : betweenNodes(from, to, ask.current);
      }
      case "cross":
      case "apart":
        return pairOf(ask.for, this.#element(part, ask.a), this.#element(part, ask.b));
      case "state":
        return ask.subject === undefined ? this.#stateInPart(part, ask.phrase) : this.#stateOf(ask.subject, ask.phrase);
      default:
        return this.#resolve(ask);
    }
  }

  #valueInPart(part: Part, word: string, current: "~" | "=" | undefined): Evaluate | number | undefined {
    const knob = part.knobs.get(word);
    if (knob !== undefined) return (moment) => moment.variable(knob);
    const condition = part.instance.conditions.get(word);
    if (condition !== undefined) return this.#once(`condition ${part.id}.${word}`, condition, this.ofSheet);
    const parameter = this.#build.parameterIndex.get(`${part.id}.${word}`);
    if (parameter !== undefined) return (moment) => moment.parameter(parameter);
    const given = this.#given(part, word);
    if (given !== undefined) return given;
    const dot = word.lastIndexOf(".");
    const element = dot < 0 ? undefined : this.#element(part, word.slice(0, dot));
    if (element === undefined) return undefined;
    switch (word.slice(dot + 1)) {
      case "volts":
        return current === undefined ? (moment) => moment.volts(element) : (moment) => moment.volts(element, current);
      case "amps":
        return current === undefined ? (moment) => moment.amps(element) : (moment) => moment.amps(element, current);
      case "watts":
        return (moment) => moment.watts(element);
      default:
        return undefined;
    }
  }

  #stateInPart(part: Part, phrase: string): Evaluate | number | undefined {
    for (const set of part.stateSets) {
      const state = this.#build.stateSets[set]?.states.indexOf(phrase) ?? -1;
      if (state >= 0) return (moment) => (moment.state(set) === state ? 1 : 0);
    }
    return undefined;
  }

  #inputOrWorld(name: string): Evaluate | undefined {
    const variable = this.#build.variableIndex.get(name);
    return variable === undefined ? undefined : (moment) => moment.variable(variable);
  }

  #part(id: string): Part | undefined {
    const index = this.#build.partIndex.get(id);
    return index === undefined ? undefined : this.#build.parts[index];
  }

  #element(part: Part, name: string): number | undefined {
    return this.#build.elementIndex.get(`${part.id}.${name}`);
  }

  #node(name: string): number | undefined {
    return this.#nodes.ofPoint(name) ?? this.#nodes.ofWire(name);
  }

  *#known(ask: Ask): Iterable<string> {
    if (ask.for === "hottest") return yield* this.#groups.keys();
    if (ask.for === "state") {
      yield* ask.subject === undefined
        ? this.#choice.values()
        : [...this.#choice.keys(), ...this.#build.partIndex.keys()];
      const part = ask.subject === undefined ? undefined : this.#part(ask.subject);
      for (const set of part?.stateSets ?? []) yield* this.#build.stateSets[set]?.states ?? [];
      return;
    }
    yield* this.#build.variableIndex.keys();
    yield* this.#quantities.keys();
    for (const part of this.#build.parts) {
      for (const word of part.instance.gives.keys()) yield `${part.id}.${word}`;
    }
  }

  *#knownInPart(part: Part, ask: Ask): Iterable<string> {
    if (ask.for === "state") {
      for (const set of part.stateSets) yield* this.#build.stateSets[set]?.states ?? [];
      return;
    }
    const { instance } = part;
    yield* [...part.knobs.keys(), ...instance.conditions.keys(), ...instance.gives.keys(), ...instance.ratings.keys()];
    for (const { name } of instance.elements) yield* [`${name}.volts`, `${name}.amps`, `${name}.watts`];
  }
}

function betweenNodes(from: number, to: number, current: "~" | "=" | undefined): Evaluate {
  return current === undefined ? (moment) => moment.between(from, to) : (moment) => moment.between(from, to, current);
}

function pairOf(what: "cross" | "apart", a: number | undefined, b: number | undefined): Evaluate | undefined {
  if (a === undefined || b === undefined) return undefined;
  return what === "cross" ? (moment) => moment.cross(a, b) : (moment) => moment.apart(a, b);
}

function hottestOf(elements: readonly number[]): Evaluate {
  return (moment) => {
    let most = 0;
    for (const element of elements) {
      const watts = moment.watts(element);
      if (watts > most) most = watts;
    }
    return most;
  };
}
