import { type Checked, IssueList } from "../issue/index.ts";
import { type Deck, type DeckElement, type DeckKind, deckKey } from "./deck.ts";
import { type Card, deckCards } from "./deck-cards.ts";
import { deckNumber, valueWanted } from "./deck-value.ts";

/** Largest deck read, characters, and most elements after flattening (subcircuits can multiply without end). */
const mostCharacters = 2_000_000;
const mostElements = 3_000;

/** Cards that ask another program to do something; they say nothing about the circuit. */
const ignoredCards = new Set(
  (
    "op ac dc tran tf noise sens pz disto four meas measure print plot probe save options option opt width temp ic " +
    "nodeset title"
  ).split(" "),
);

interface Subcircuit {
  readonly name: string;
  readonly ports: readonly string[];
  readonly cards: Card[];
  readonly inner: Map<string, Subcircuit>;
  readonly outer: Subcircuit | undefined;
  readonly line: number;
}

/**
 * Reads a SPICE deck: title line, R C L V I cards, suffixes, `DC` and `AC magnitude phase` of sources, `*` comments,
 * `+` continuation, `.subckt` and X cards (flattened: node `x1.n`, element `x1.r`). Analysis cards are passed over;
 * anything else is an issue with its line.
 */
export function readDeck(text: string, file?: string): Checked<Deck> {
  return new DeckReader(file).read(text);
}

class DeckReader {
  readonly #issues = new IssueList();
  readonly #file: string | undefined;
  readonly #elements: DeckElement[] = [];
  readonly #names = new Set<string>();
  readonly #reported = new Set<string>();
  #full = false;

  constructor(file: string | undefined) {
    this.#file = file;
  }

  read(text: string): Checked<Deck> {
    if (text.length > mostCharacters) {
      this.#issue("deck.too-large", 1, `${text.length} characters`, `at most ${mostCharacters}`);
      return this.#issues.conclude(() => ({ title: "", elements: [] }));
    }
    const { title, cards } = deckCards(text, this.#issues, this.#file);
    if (/^[rclvi]\S*\s+\S+\s+\S+\s+[\d.+-]/i.test(title)) {
      this.#issue("deck.title.card", 1, `"${title}"`, "a title", "The first line is never read as a card.", "warning");
    }
    const top: Subcircuit = { name: "", ports: [], cards: [], inner: new Map(), outer: undefined, line: 1 };
    this.#sort(cards, top);
    this.#place(top, "", new Map(), []);
    if (this.#elements.length === 0 && !this.#issues.hasErrors) {
      this.#issue("deck.empty", 1, "no element", "at least one R, C, L, V or I card after the title line");
    }
    return this.#issues.conclude(() => ({ title, elements: this.#elements }));
  }

  #issue(
    code: string,
    line: number,
    found: string,
    expected: string,
    hint?: string,
    severity: "error" | "warning" = "error",
  ): void {
    // A card of a subcircuit is met once for each X card; its fault is told once.
    const key = `${code} ${line} ${found}`;
    if (this.#reported.has(key)) return;
    this.#reported.add(key);
    this.#issues.add({
      code,
      severity,
      ...(this.#file === undefined ? {} : { file: this.#file }),
      line,
      at: [],
      found,
      expected,
      ...(hint === undefined ? {} : { hint }),
    });
  }

  /** Puts each card with the subcircuit it stands in; drops what is not about the circuit. */
  #sort(cards: readonly Card[], top: Subcircuit): void {
    let at = top;
    let control = false;
    for (const card of cards) {
      const first = deckKey(card.words[0]);
      if (control || first === ".control") {
        control = first !== ".endc";
      } else if (first === ".end") {
        break;
      } else if (first === ".subckt") {
        at = this.#open(card, at);
      } else if (first === ".ends") {
        if (at.outer === undefined) this.#issue("deck.ends.stray", card.line, ".ends", "a .subckt before it");
        else {
          const name = card.words[1];
          if (name !== undefined && deckKey(name) !== deckKey(at.name))
            this.#issue("deck.ends.name", card.line, name, `the name of the open subcircuit, ${at.name}`);
          at = at.outer;
        }
      } else if (first.startsWith(".")) {
        if (!ignoredCards.has(first.slice(1)))
          this.#issue(
            "deck.card.unknown",
            card.line,
            card.words[0],
            "an R, C, L, V, I or X card, .subckt, or an analysis card",
          );
      } else at.cards.push(card);
    }
    if (at !== top) this.#issue("deck.subckt.open", at.line, `.subckt ${at.name}`, "an .ends after it");
  }

  #open(card: Card, outer: Subcircuit): Subcircuit {
    const [, name = "", ...ports] = card.words;
    if (name === "" || ports.length === 0 || ports.some((port) => port.includes("=") || port.endsWith(":")))
      this.#issue(
        "deck.subckt.form",
        card.line,
        card.words.join(" "),
        ".subckt name node node ..., without parameters",
      );
    const ports0 = ports.map(deckKey);
    if (new Set(ports0).size < ports0.length)
      this.#issue("deck.subckt.port", card.line, ports.join(" "), "each node of a subcircuit once");
    if (outer.inner.has(deckKey(name))) this.#issue("deck.subckt.twice", card.line, name, "a name used once here");
    const inner: Subcircuit = { name, ports: ports0, cards: [], inner: new Map(), outer, line: card.line };
    outer.inner.set(deckKey(name), inner);
    return inner;
  }

  /** Lays the cards of one subcircuit down, its ports joined to `nodes`. `within` guards against a loop of X cards. */
  #place(of: Subcircuit, prefix: string, nodes: ReadonlyMap<string, string>, within: readonly Subcircuit[]): void {
    const nodeOf = (name: string): string =>
      name === "0" ? "0" : (nodes.get(deckKey(name)) ?? (prefix === "" ? name : `${prefix}.${name}`));
    for (const card of of.cards) {
      if (this.#full) return;
      const name = card.words[0];
      const letter = name[0].toUpperCase();
      const full = prefix === "" ? name : `${prefix}.${name}`;
      if (this.#names.has(deckKey(full))) {
        this.#issue("deck.name.twice", card.line, full, "a name used once");
        continue;
      }
      this.#names.add(deckKey(full));
      if (this.#names.size > 2 * mostElements) {
        this.#overflow(card.line);
        return;
      }
      const names = letter === "X" ? card.words : card.words.slice(0, 3);
      const odd = names.find((word) => /[(),={}'"]/.test(word));
      if (odd !== undefined) this.#issue("deck.name", card.line, odd, "names without ( ) , = { } or quotes");
      else if (letter === "X") this.#expand(card, full, of, nodeOf, within);
      else if (letter === "R" || letter === "C" || letter === "L") this.#passive(letter, card, full, nodeOf);
      else if (letter === "V" || letter === "I") this.#source(letter, card, full, nodeOf);
      else
        this.#issue("deck.card.unknown", card.line, name, "an R, C, L, V, I or X card, .subckt, or an analysis card");
    }
  }

  #expand(
    card: Card,
    full: string,
    of: Subcircuit,
    nodeOf: (name: string) => string,
    within: readonly Subcircuit[],
  ): void {
    const name = card.words.at(-1) ?? "";
    const joined = card.words.slice(1, -1);
    let definition: Subcircuit | undefined;
    for (let scope: Subcircuit | undefined = of; scope !== undefined && definition === undefined; scope = scope.outer)
      definition = scope.inner.get(deckKey(name));
    if (definition === undefined) {
      this.#issue(
        "deck.subckt.unknown",
        card.line,
        name,
        "the name of a .subckt as the last word",
        "Parameters are not read.",
      );
    } else if (within.includes(definition)) {
      this.#issue("deck.subckt.loop", card.line, card.words[0], `no ${name} inside ${name}`);
    } else if (joined.length !== definition.ports.length) {
      this.#issue(
        "deck.subckt.ports",
        card.line,
        `${joined.length} nodes`,
        `${definition.ports.length}, as .subckt ${name} has`,
      );
    } else {
      const inner = new Map(definition.ports.map((port, p) => [port, nodeOf(joined[p])]));
      this.#place(definition, full, inner, [...within, definition]);
    }
  }

  #passive(kind: DeckKind, card: Card, name: string, nodeOf: (name: string) => string): void {
    const [, a, b, text, ...rest] = card.words;
    if (text === undefined || rest.length > 0) {
      this.#issue(
        "deck.card.form",
        card.line,
        card.words.join(" "),
        `${card.words[0]} node node value, and nothing more`,
      );
      return;
    }
    const value = this.#value(kind, text, card);
    if (value !== undefined) this.#add({ name, kind, a: nodeOf(a), b: nodeOf(b), value, line: card.line });
  }

  #source(kind: DeckKind, card: Card, name: string, nodeOf: (name: string) => string): void {
    const [, a, b, ...words] = card.words;
    if (words.length === 0) {
      this.#issue(
        "deck.card.form",
        card.line,
        card.words.join(" "),
        `${card.words[0]} node node [DC] value [AC magnitude phase]`,
      );
      return;
    }
    let dc: number | undefined;
    let ac: { magnitude: number; degrees: number } | undefined;
    for (let at = 0; at < words.length; at++) {
      const word = deckKey(words[at]);
      if (word === "ac" && ac === undefined) {
        const magnitude = numberAt(words, at + 1);
        const degrees = magnitude === undefined ? undefined : numberAt(words, at + 2);
        if (magnitude !== undefined && valueWanted(kind, magnitude) !== undefined)
          this.#value(kind, words[at + 1], card);
        ac = { magnitude: magnitude ?? 1, degrees: degrees ?? 0 };
        at += (magnitude === undefined ? 0 : 1) + (degrees === undefined ? 0 : 1);
      } else if (dc === undefined && (word === "dc" || at === 0)) {
        if (word === "dc") at++;
        dc = this.#value(kind, words[at] ?? "", card);
        if (dc === undefined) return;
      } else {
        this.#issue(
          "deck.source.form",
          card.line,
          words[at],
          "[DC] value, AC magnitude phase",
          "Functions of time are not read: give an AC magnitude.",
        );
        return;
      }
    }
    const element = { name, kind, a: nodeOf(a), b: nodeOf(b), value: dc ?? 0, line: card.line };
    this.#add(ac === undefined ? element : { ...element, ac });
  }

  #value(kind: DeckKind, text: string, card: Card): number | undefined {
    const value = deckNumber(text);
    const wanted = value === undefined ? "a number with suffix f p n u m k meg g t or none" : valueWanted(kind, value);
    if (wanted === undefined) return value;
    this.#issue("deck.value", card.line, `"${text}" for ${card.words[0]}`, wanted);
    return undefined;
  }

  #overflow(line: number): void {
    this.#full = true;
    this.#issue(
      "deck.too-many",
      line,
      `more than ${mostElements} elements`,
      `at most ${mostElements} after flattening`,
    );
  }

  #add(element: DeckElement): void {
    if (this.#elements.length === mostElements) this.#overflow(element.line);
    else this.#elements.push(element);
  }
}

function numberAt(words: readonly string[], at: number): number | undefined {
  return at < words.length ? deckNumber(words[at]) : undefined;
}
