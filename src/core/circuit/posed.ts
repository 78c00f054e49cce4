import {
  complexInvert,
  complexMultiply,
  complexZero,
  isZero,
  multiply,
  unitPhasor,
  type Wide,
  type WideComplex,
  wide,
  zero,
} from "../matrix/index.ts";
import type { Shape } from "./circuit.ts";
import { type Deck, type DeckElement, type DeckKind, deckKey } from "./deck.ts";
import type { Question } from "./question.ts";
import { type RigidConflict, rigidLoops } from "./rigid.ts";
import type { WideCurrent, WideElement } from "./wide-solver.ts";

/** One element as it stands in one question: its faults put in, its value taken at the frequency asked. */
export interface PosedElement {
  /** As written in the deck; for what a fault added, a description. */
  readonly says: string;
  readonly a: number;
  readonly b: number;
  readonly what: WideElement | "source" | "current";
  /** Volts or amperes of a source, in this analysis. */
  readonly drive: WideComplex;
  /** Why it is open, where it is. */
  readonly openBecause?: string;
  /** The element of the deck, absent for what a fault added. */
  readonly deck?: DeckPart;
}

/** What a partial needs to know of an element of the deck. */
export interface DeckPart {
  readonly kind: DeckKind;
  /** Direction of a source's phasor. */
  readonly phasor: WideComplex;
  /** What a `scale` fault multiplies the value by; 0 where a true open or short makes the value idle. */
  readonly factor: number;
}

/** A deck with one question's changes, ready for `WideSolver`. */
export interface Posed {
  readonly nodeNames: readonly string[];
  readonly nodeOf: ReadonlyMap<string, number>;
  readonly all: readonly PosedElement[];
  /** Those of `all` that are no current source: aligned with `shape.elements` and `elements`. */
  readonly entered: readonly PosedElement[];
  readonly shape: Shape;
  readonly elements: readonly WideElement[];
  readonly emf: readonly WideComplex[];
  readonly currents: readonly WideCurrent[];
  /** Voltage sources that only repeat what is already fixed, as positions in `entered`. */
  readonly redundant: readonly number[];
  readonly conflicts: readonly RigidConflict[];
  /** Deck key → its element. */
  readonly byKey: ReadonlyMap<string, PosedElement>;
  readonly removed: readonly { readonly says: string; readonly a: number; readonly b: number }[];
}

/** Puts a question's values, removals and faults into a deck. `omega` is undefined at DC; `dead` kills every source. */
export function pose(deck: Deck, question: Question, omega: Wide | undefined, dead: boolean): Posed {
  const builder = new Builder(deck, question, omega, dead);
  return builder.build();
}

class Builder {
  readonly #deck: Deck;
  readonly #question: Question;
  readonly #omega: Wide | undefined;
  readonly #dead: boolean;
  readonly #nodeNames: string[] = [];
  readonly #nodeOf = new Map<string, number>();
  readonly #all: PosedElement[] = [];

  constructor(deck: Deck, question: Question, omega: Wide | undefined, dead: boolean) {
    this.#deck = deck;
    this.#question = question;
    this.#omega = omega;
    this.#dead = dead;
  }

  build(): Posed {
    this.#node("0");
    for (const { a, b } of this.#deck.elements) for (const name of [a, b]) this.#node(name);
    const byKey = new Map<string, PosedElement>();
    const removed: Posed["removed"][number][] = [];
    for (const element of this.#deck.elements) {
      const key = deckKey(element.name);
      if (this.#question.remove.has(key)) {
        removed.push({ says: element.name, a: this.#node(element.a), b: this.#node(element.b) });
        continue;
      }
      byKey.set(key, this.#place(element, key));
    }
    for (const fault of this.#question.faults) {
      if (fault.does === "leak")
        this.#resistor(`leak ${fault.node} to ${fault.to}`, this.#node(fault.node), this.#node(fault.to), fault.ohms);
    }
    const entered = this.#all.filter(({ what }) => what !== "current");
    const { redundant, conflicts } = rigidLoops(this.#nodeNames.length, entered);
    const left = new Set(redundant);
    const sources = [...entered.keys()].filter((e) => entered[e].what === "source" && !left.has(e));
    return {
      nodeNames: this.#nodeNames,
      nodeOf: this.#nodeOf,
      all: this.#all,
      entered,
      shape: { nodes: this.#nodeNames.length, elements: entered, sources },
      elements: entered.map(({ what }): WideElement => (what === "source" || what === "current" ? complexZero : what)),
      emf: sources.map((e) => entered[e].drive),
      currents: this.#all.filter(({ what }) => what === "current").map(({ a, b, drive }) => ({ a, b, amperes: drive })),
      redundant,
      conflicts,
      byKey,
      removed,
    };
  }

  #node(name: string): number {
    const key = deckKey(name);
    const known = this.#nodeOf.get(key);
    if (known !== undefined) return known;
    this.#nodeOf.set(key, this.#nodeNames.length);
    this.#nodeNames.push(name);
    return this.#nodeNames.length - 1;
  }

  /** Faults around an element become elements of their own: those in series reach it over new nodes. */
  #place(element: DeckElement, key: string): PosedElement {
    let value = this.#question.set.get(key);
    let state: "open" | "short" | undefined;
    const a = this.#node(element.a);
    let b = this.#node(element.b);
    let factor = 1;
    for (const fault of this.#question.faults) {
      if (fault.does === "leak" || fault.element !== key) continue;
      if (fault.does === "open" || fault.does === "short") state = fault.does;
      else if (fault.does === "scale") factor *= fault.by;
      else if (fault.does === "series") {
        const inner = this.#nodeNames.length;
        this.#nodeNames.push(`inside ${element.name}`);
        this.#resistor(`resistance in series with ${element.name}`, inner, b, fault.ohms);
        b = inner;
      }
    }
    for (const fault of this.#question.faults) {
      if (fault.does === "parallel" && fault.element === key)
        this.#resistor(`resistance across ${element.name}`, a, b, fault.ohms);
    }
    const ac = this.#omega !== undefined;
    value ??= ac && element.ac !== undefined ? element.ac.magnitude : isSource(element.kind) && ac ? 0 : element.value;
    value *= factor;
    const phasor = ac ? unitPhasor(wide(element.ac?.degrees ?? 0)) : { re: { hi: 1, lo: 0 }, im: zero };
    const posed = {
      says: element.name,
      a,
      b,
      drive: complexZero,
      deck: { kind: element.kind, phasor, factor: state === undefined ? factor : 0 },
      ...(state === "open"
        ? { what: complexZero, openBecause: "open by fault" }
        : state === "short"
          ? { what: "short" as const }
          : isSource(element.kind)
            ? this.#driven(element.kind, complexMultiply({ re: wide(this.#dead ? 0 : value), im: zero }, phasor))
            : this.#admittance(element.kind, value)),
    };
    this.#all.push(posed);
    return posed;
  }

  #driven(kind: DeckKind, drive: WideComplex): Pick<PosedElement, "what" | "drive" | "openBecause"> {
    if (kind === "V") return { what: "source", drive };
    if (isZero(drive)) return { what: complexZero, drive, openBecause: "a current source of nothing" };
    return { what: "current", drive };
  }

  #admittance(kind: DeckKind, value: number): Pick<PosedElement, "what" | "openBecause"> {
    if (kind === "C") {
      if (this.#omega === undefined) return { what: complexZero, openBecause: "a capacitor, open at DC" };
      if (value === 0) return { what: complexZero, openBecause: "a capacitor of 0 F" };
      return { what: { re: zero, im: multiply(this.#omega, wide(value)) } };
    }
    if (value === 0 || (kind === "L" && this.#omega === undefined)) return { what: "short" };
    const impedance =
      kind === "L" && this.#omega !== undefined
        ? { re: zero, im: multiply(this.#omega, wide(value)) }
        : { re: wide(value), im: zero };
    return { what: complexInvert(impedance) };
  }

  #resistor(says: string, a: number, b: number, ohms: number): void {
    this.#all.push({ says, a, b, drive: complexZero, ...this.#admittance("R", ohms) });
  }
}

function isSource(kind: DeckKind): boolean {
  return kind === "V" || kind === "I";
}
