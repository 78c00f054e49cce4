import type { Deck, DeckElement } from "./deck.ts";

/** An element to be written: names are free, and made fit for a deck. */
export type WrittenElement = Omit<DeckElement, "line">;

/** A deck as text, and the names it gave to elements (in order) and nodes. */
export interface WrittenDeck {
  readonly text: string;
  readonly elementNames: readonly string[];
  readonly nodeNames: ReadonlyMap<string, string>;
}

/**
 * Writes a network as a SPICE deck: a title, a card an element, `.end`. Names get the letter of their kind in front
 * where they lack it, characters that a deck cannot hold become `_`, and names that would fall together get a number.
 * A true open (infinite ohms) is left out, as a comment; a short is written as 0 ohms. `groundNode` becomes node 0.
 * Reading the text again gives the same circuit.
 */
export function writeDeck(title: string, elements: readonly WrittenElement[], groundNode = "0"): WrittenDeck {
  const nodes = new Names(["0"]);
  const nodeNames = new Map<string, string>([[groundNode, "0"]]);
  const nodeOf = (name: string): string => {
    const known = nodeNames.get(name);
    if (known !== undefined) return known;
    const given = nodes.take(name === "0" ? "node0" : name);
    nodeNames.set(name, given);
    return given;
  };
  const names = new Names([]);
  const cards: string[] = [];
  const elementNames: string[] = [];
  for (const element of elements) {
    const { name, kind, a, b, value, ac } = element;
    const leads = name.slice(0, 1).toUpperCase() === kind && !name.includes(" ");
    const given = names.take(leads ? name : `${kind}${name}`);
    elementNames.push(given);
    const ends = `${given} ${nodeOf(a)} ${nodeOf(b)}`;
    if (kind === "R" && value === Number.POSITIVE_INFINITY) cards.push(`* ${ends} is open`);
    else if (ac === undefined) cards.push(`${ends} ${plain(value)}`);
    else cards.push(`${ends} DC ${plain(value)} AC ${plain(ac.magnitude)} ${plain(ac.degrees)}`);
  }
  const text = `${[title.replace(/[\r\n]+/g, " "), ...cards, ".end"].join("\n")}\n`;
  return { text, elementNames, nodeNames };
}

/** A deck read before, as text again. */
export function rewriteDeck({ title, elements }: Deck): string {
  return writeDeck(title, elements).text;
}

/** Shortest decimal that reads back as the same double; throws on what a deck cannot hold. */
function plain(value: number): string {
  if (!Number.isFinite(value)) throw new Error(`a deck cannot hold the value ${value}`);
  return String(value);
}

class Names {
  readonly #taken: Set<string>;

  constructor(taken: readonly string[]) {
    this.#taken = new Set(taken);
  }

  /** `wanted` made fit for a deck and unlike all others, case aside. */
  take(wanted: string): string {
    const fit = wanted.replace(/[^\w.:+#/-]/g, "_").replace(/^[+.#-]/, "_") || "_";
    let given = fit;
    for (let n = 2; this.#taken.has(given.toLowerCase()); n++) given = `${fit}_${n}`;
    this.#taken.add(given.toLowerCase());
    return given;
  }
}
