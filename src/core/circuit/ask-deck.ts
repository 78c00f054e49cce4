import { accept, type Checked } from "../issue/index.ts";
import {
  type Bounded,
  complexMultiply,
  complexOne,
  complexZero,
  multiply,
  type NodePair,
  pi,
  taxicab,
  toNumber,
  type Wide,
  type WideComplex,
  wide,
  zero,
} from "../matrix/index.ts";
import { becauseOpen } from "./because.ts";
import { type Deck, deckKey } from "./deck.ts";
import { type Layer, sourceLayers } from "./layer.ts";
import { type DeckPart, type Posed, pose } from "./posed.ts";
import type { Answer, Question, Unit } from "./question.ts";
import { readDeck } from "./read-deck.ts";
import { readQuestions } from "./read-questions.ts";
import { WideSolver } from "./wide-solver.ts";

/**
 * Door A: answers questions about a SPICE deck, each exactly (double-double arithmetic; an answer that is not known to
 * 1e-9 of itself is not given). Bad decks and questions come back as issues, all at once.
 *
 * @param ask the questions, already parsed from JSON
 * @example askDeck("divider\nv1 a 0 10\nr1 a b 1k\nr2 b 0 1k", { questions: [{ id: "q", dc: true, volts: ["b", "0"] }] })
 */
export function askDeck(
  deckText: string,
  ask: unknown,
  files: { readonly deck?: string; readonly ask?: string } = {},
): Checked<Answer[]> {
  const deck = readDeck(deckText, files.deck);
  if (!deck.ok) return deck;
  const read = readQuestions(ask, deck.value, files.ask);
  if (!read.ok) return read;
  const { hertz, questions } = read.value;
  const omega = hertz === undefined ? undefined : multiply(multiply(wide(2), pi), wide(hertz));
  const answerer = new Answerer(deck.value, omega);
  return accept(
    questions.map((question) => answerer.answer(question)),
    [...deck.warnings, ...read.warnings],
  );
}

/** Relative error up to which an answer is given. */
const sure = 1e-9;
/** Of the largest source: below it a doubtful answer is a plain 0. */
const nothingBeside = 1e-18;

class Answerer {
  readonly #deck: Deck;
  readonly #omega: Wide | undefined;
  /** Questions that only change values share their elimination schedules. */
  readonly #layers = new Map<string, readonly Layer[]>();

  constructor(deck: Deck, omega: Wide | undefined) {
    this.#deck = deck;
    this.#omega = omega;
  }

  answer(question: Question): Answer {
    const { id, asked } = question;
    const ohms = asked.kind === "ohms";
    const omega = question.dc || ohms ? undefined : this.#omega;
    const posed = pose(this.#deck, question, omega, ohms);
    const solver = this.#solver(posed, posed.emf, posed.currents);
    const [a, b] = endsOf(posed, question);
    const trouble = contradiction(posed, solver, [a, b]);
    if (trouble !== undefined) return { id, undefined: true, because: trouble };
    if (asked.kind === "amps" || asked.kind === "watts") return this.#throughElement(question, posed, solver, omega);
    if (!solver.joined(a, b)) return { id, open: true, because: becauseOpen(posed, solver, a, b) };
    const value = ohms ? solver.impedance(a, b) : solver.between(a, b);
    const plain = this.#plain(id, value, ohms ? "Ohm" : "V", posed, omega !== undefined, ohms);
    if (!("value" in plain) || !question.partials) return plain;
    return { ...plain, partials: this.#partials(posed, solver, a, b, omega, ohms) };
  }

  #solver(posed: Posed, emf: readonly WideComplex[], currents: Posed["currents"]): WideSolver {
    const { shape, elements, redundant } = posed;
    const key = `${shape.nodes};${shape.sources.join()};${shape.elements.map(({ a, b }) => `${a}-${b}`).join()}`;
    const layers = this.#layers.get(key) ?? sourceLayers(shape);
    this.#layers.set(key, layers);
    return new WideSolver(shape, layers, elements, emf, currents, redundant);
  }

  #plain(id: string, { value, error }: Bounded, unit: Unit, posed: Posed, ac: boolean, unsigned: boolean): Answer {
    const size = taxicab(value);
    if (!(error <= sure * size)) {
      const scale = Math.max(...posed.all.map(({ drive }) => taxicab(drive)), 0);
      if (!(error <= nothingBeside * scale))
        return { id, undefined: true, because: "the circuit is at resonance without loss" };
    }
    const re = toNumber(value.re) + 0;
    const im = toNumber(value.im) + 0;
    if (ac) return { id, value: Math.hypot(re, im), unit, re, im };
    return unsigned ? { id, value: re, unit } : { id, value: Math.abs(re), unit, re };
  }

  #throughElement(question: Question, posed: Posed, solver: WideSolver, omega: Wide | undefined): Answer {
    const { id, asked } = question;
    const element = "element" in asked ? posed.byKey.get(asked.element) : undefined;
    if (element === undefined) throw new Error(`question ${id} asks for an element that is not there`);
    const amps =
      element.what === "current" ? { value: element.drive, error: 0 } : solver.amps(posed.entered.indexOf(element));
    if (amps === undefined)
      return {
        id,
        undefined: true,
        because: `${element.says} is in a loop without resistance, so its current is not determined`,
      };
    if (asked.kind === "amps") return this.#plain(id, amps, "A", posed, omega !== undefined, false);
    const volts = element.what === "source" ? { value: element.drive, error: 0 } : solver.between(element.a, element.b);
    const conjugate = { re: amps.value.re, im: { hi: -amps.value.im.hi, lo: -amps.value.im.lo } };
    const power = complexMultiply(volts.value, conjugate);
    const watts = {
      value: { re: element.deck?.kind === "C" || element.deck?.kind === "L" ? zero : power.re, im: zero },
      error: volts.error * taxicab(amps.value) + amps.error * taxicab(volts.value),
    };
    const isSource = element.what === "source" || element.what === "current";
    return this.#plain(id, watts, "W", posed, false, !isSource);
  }

  /**
   * d(answer)/d(value) of every element: the product of its own current and of the current that one ampere sent in at a
   * and out at b gives it.
   *
   * @source S. W. Director, R. A. Rohrer, IEEE Trans. Circuit Theory 16 (1969) 318, adjoint network (from memory)
   */
  #partials(
    posed: Posed,
    solver: WideSolver,
    a: number,
    b: number,
    omega: Wide | undefined,
    ohms: boolean,
  ): Record<string, number | { re: number; im: number }> {
    const unit = { a: b, b: a, amperes: complexOne };
    const adjoint = this.#solver(
      posed,
      posed.emf.map(() => complexZero),
      [unit],
    );
    const partials: Record<string, number | { re: number; im: number }> = {};
    for (const element of posed.all) {
      if (element.deck === undefined) continue;
      const { kind, factor } = element.deck;
      if (ohms && (kind === "V" || kind === "I")) continue;
      const bare = slopeOf(
        element.deck,
        posed.entered.indexOf(element),
        element,
        ohms ? adjoint : solver,
        adjoint,
        omega,
      );
      const slope = complexMultiply(bare, { re: wide(factor), im: zero });
      partials[element.says] =
        omega === undefined ? toNumber(slope.re) + 0 : { re: toNumber(slope.re) + 0, im: toNumber(slope.im) + 0 };
    }
    return partials;
  }
}

function slopeOf(
  { kind, phasor }: DeckPart,
  e: number,
  { a, b }: NodePair,
  solver: WideSolver,
  adjoint: WideSolver,
  omega: Wide | undefined,
): WideComplex {
  const jOmega = { re: zero, im: omega ?? zero };
  const negative = (x: WideComplex): WideComplex => complexMultiply(x, { re: wide(-1), im: zero });
  switch (kind) {
    case "R":
    case "L": {
      const product = complexMultiply(solver.amps(e)?.value ?? complexZero, adjoint.amps(e)?.value ?? complexZero);
      return kind === "R" ? product : complexMultiply(product, jOmega);
    }
    case "C":
      return negative(complexMultiply(complexMultiply(solver.across(e).value, adjoint.across(e).value), jOmega));
    case "V":
      return complexMultiply(adjoint.amps(e)?.value ?? complexZero, phasor);
    case "I":
      return negative(complexMultiply(adjoint.between(a, b).value, phasor));
  }
}

function endsOf(posed: Posed, { asked, id }: Question): [number, number] {
  if ("element" in asked) {
    const element = posed.byKey.get(asked.element);
    if (element === undefined) throw new Error(`question ${id} asks for an element that is not there`);
    return [element.a, element.b];
  }
  const nodes = [asked.a, asked.b].map((name) => posed.nodeOf.get(deckKey(name)));
  const [a, b] = nodes;
  if (a === undefined || b === undefined) throw new Error(`question ${id} asks for a node that is not there`);
  return [a, b];
}

/** What in the islands of these nodes cannot be true at once. */
function contradiction(posed: Posed, solver: WideSolver, nodes: readonly number[]): string | undefined {
  const islands = new Set(nodes.map((node) => solver.island(node)));
  const conflict = posed.conflicts.find(({ node }) => islands.has(solver.island(node)));
  if (conflict !== undefined) return conflict.because;
  const stranded = posed.all.find(
    ({ what, a, b }) =>
      what === "current" && !solver.joined(a, b) && (islands.has(solver.island(a)) || islands.has(solver.island(b))),
  );
  return stranded === undefined ? undefined : `${stranded.says} drives a current that has no way back`;
}
