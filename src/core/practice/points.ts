import { nearest } from "../part/index.ts";
import type { Pair } from "./act.ts";
import type { Named } from "./names.ts";

/** What typed points mean: pairs to be read; pairs to choose from; or a word that is no point. */
export type Points =
  | { readonly kind: "pairs"; readonly pairs: readonly Pair[] }
  | { readonly kind: "choose"; readonly pairs: readonly Pair[] }
  | { readonly kind: "unclear"; readonly word: string; readonly near?: string };

/** Short names that everybody uses for the pins of the mains plug. */
const PLUG_PINS: ReadonlyMap<string, string> = new Map([
  ["l", "plug.L"],
  ["n", "plug.N"],
  ["pe", "plug.PE"],
  ["e", "plug.PE"],
  ["earth", "plug.PE"],
]);
/** Words between two points. */
const BETWEEN = new Set(["to", "and", "against", "-", "–", "/"]);
/** Pairs offered of a thing with many pins. */
const MOST_PAIRS = 10;

/**
 * Reads points as they are typed: `X3.1 X3.3`, `X3.1-3`, `X3 1-2, 1-3`, `heater s1 common`, `L+N earth`; a bare connector or
 * part gives its pairs to choose from.
 */
export function readPoints(text: string, points: readonly Named[]): Points {
  const reader = new PointReader(points);
  const pairs: Pair[] = [];
  for (const segment of text.split(",")) {
    const met = reader.segment(segment);
    if (met.kind === "unclear") return met;
    if (met.kind === "choose") return met;
    pairs.push(...met.pairs);
  }
  return pairs.length === 0 ? { kind: "unclear", word: text.trim() } : { kind: "pairs", pairs };
}

/** All pairs of the points of one connector or part, in pin order. */
export function pairsOf(owner: string, points: readonly Named[]): readonly Pair[] {
  const own = points.map(({ id }) => id).filter((id) => ownerOf(id) === owner && !id.endsWith(INSIDE));
  return own.flatMap((from, n) => own.slice(n + 1).map((to) => ({ from, to, joinedWith: [] }))).slice(0, MOST_PAIRS);
}

const INSIDE = " inside";

function ownerOf(point: string): string {
  return point.slice(0, point.lastIndexOf("."));
}

/** Reads one pair after the other; the owner named last holds for the next. */
class PointReader {
  readonly #points: readonly Named[];
  readonly #ids: ReadonlyMap<string, string>;
  readonly #owners: readonly string[];
  #owner: string | undefined;

  constructor(points: readonly Named[]) {
    this.#points = points;
    this.#ids = new Map(points.map(({ id }) => [id.toLowerCase(), id]));
    this.#owners = [...new Set(points.map(({ id }) => ownerOf(id)))];
  }

  segment(text: string): Points {
    const words = text.split(/\s+/).filter((word) => word !== "" && !BETWEEN.has(word.toLowerCase()));
    const ends: (readonly string[])[] = [];
    for (const word of words) {
      if (word.toLowerCase() === "inside" && ends.length > 0) {
        const [last, ...joined] = ends[ends.length - 1];
        ends[ends.length - 1] = [this.#ids.get(`${last}${INSIDE}`.toLowerCase()) ?? last, ...joined];
        continue;
      }
      const met = this.#word(word);
      if (met === undefined) return this.#unclear(word);
      ends.push(...met);
    }
    const [from, to, more] = ends;
    if (from === undefined && this.#owner !== undefined) {
      return { kind: "choose", pairs: pairsOf(this.#owner, this.#points) };
    }
    if (from === undefined || to === undefined || more !== undefined) return { kind: "unclear", word: text.trim() };
    // What is joined is joined to the first point, whichever end it was typed at.
    const [first, second] = to.length > 1 ? [to, from] : [from, to];
    const [one, ...joinedWith] = first;
    return { kind: "pairs", pairs: [{ from: one, to: second[0], joinedWith }] };
  }

  /** Points of one word: one, two of `1-3`, none for the name of a connector or part; undefined: it means nothing here. */
  #word(word: string): readonly (readonly string[])[] | undefined {
    if (word.includes("+")) {
      const joined = word.split("+").map((piece) => this.#point(piece));
      return joined.every((id) => id !== undefined) ? [joined] : undefined;
    }
    const point = this.#point(word);
    if (point !== undefined) {
      if (ownerOf(point) !== "plug") this.#owner = ownerOf(point);
      return [[point]];
    }
    const owner = this.#ownerNamed(word);
    if (owner !== undefined) {
      this.#owner = owner;
      return [];
    }
    const dash = Math.max(word.lastIndexOf("-"), word.lastIndexOf("–"));
    if (dash < 1) return undefined;
    const left = this.#point(word.slice(0, dash));
    const right = left === undefined ? undefined : this.#sibling(left, word.slice(dash + 1));
    if (left === undefined || right === undefined) return undefined;
    this.#owner = ownerOf(left);
    return [[left], [right]];
  }

  #point(word: string): string | undefined {
    const typed = word.toLowerCase();
    const ofOwner = this.#owner === undefined ? undefined : this.#ids.get(`${this.#owner}.${typed}`.toLowerCase());
    return ofOwner ?? this.#ids.get(typed) ?? this.#ids.get((PLUG_PINS.get(typed) ?? "").toLowerCase());
  }

  #sibling(point: string, word: string): string | undefined {
    return this.#ids.get(`${ownerOf(point)}.${word}`.toLowerCase()) ?? this.#point(word);
  }

  #ownerNamed(word: string): string | undefined {
    const typed = word.toLowerCase();
    const exact = this.#owners.find((owner) => owner.toLowerCase() === typed);
    if (exact !== undefined) return exact;
    const begun = this.#owners.filter((owner) => owner.toLowerCase().startsWith(typed));
    return typed.length >= 3 && begun.length === 1 ? begun[0] : undefined;
  }

  #pinsOf(owner: string): string {
    return [...this.#ids.values()].filter((id) => ownerOf(id) === owner && !id.endsWith(INSIDE)).join(" · ");
  }

  #unclear(word: string): Points {
    const near =
      nearest(word, [...this.#ids.values(), ...this.#owners]) ??
      (this.#owner === undefined ? undefined : this.#pinsOf(this.#owner));
    return { kind: "unclear", word, ...(near === undefined ? {} : { near }) };
  }
}
