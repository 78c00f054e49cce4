import { nearest } from "../part/index.ts";

/** What a written name means: one thing, several that begin alike, or nothing that is known here. */
export type Meaning =
  | { readonly is: "one"; readonly id: string }
  | { readonly is: "several"; readonly names: readonly string[] }
  | { readonly is: "unknown" };

/** Names told one by one in a hint. */
const MOST_TOLD = 24;

/**
 * Things of one sort under every name a person may write for them: their id, what we call them on the screen ("back
 * panel"), or the beginning of either where nothing else begins so. An id always means itself.
 */
export class NameBook {
  readonly ids: readonly string[];
  /** Name as compared → ids. */
  readonly #ids = new Map<string, Set<string>>();
  readonly #spoken = new Map<string, Set<string>>();

  /** @param named  id and what it is called; an id may come again under another name */
  constructor(named: Iterable<readonly [id: string, says?: string]>) {
    for (const [id, says] of named) {
      addTo(this.#ids, asCompared(id), id);
      if (says !== undefined) addTo(this.#spoken, asCompared(says), id);
    }
    this.ids = [...new Set([...this.#ids.values()].flatMap((ids) => [...ids]))];
  }

  has(id: string): boolean {
    return this.#ids.get(asCompared(id))?.has(id) ?? false;
  }

  /**
   * @example new NameBook([["back", "back panel"]]).mean("back p") // { is: "one", id: "back" }
   */
  mean(written: string): Meaning {
    if (this.has(written)) return { is: "one", id: written };
    const name = asCompared(written);
    for (const found of [this.#ids.get(name), this.#spoken.get(name), this.#beginning(name)]) {
      if (found === undefined || found.size === 0) continue;
      const [first, ...others] = found;
      return others.length === 0 && first !== undefined
        ? { is: "one", id: first }
        : { is: "several", names: [...found] };
    }
    return { is: "unknown" };
  }

  /** The way out of an unknown name: the one that was probably meant, or what there is while that is short. */
  hint(written: string): string | undefined {
    const meaning = this.mean(written);
    if (meaning.is === "several") return `Write more of it: ${listed(meaning.names)}`;
    const near = nearest(written, [...this.ids, ...this.#spoken.keys()]);
    if (near !== undefined) return `Did you mean ${near}?`;
    return this.ids.length === 0 || this.ids.length > MOST_TOLD
      ? undefined
      : `There ${count(this.ids)}: ${listed(this.ids)}`;
  }

  #beginning(name: string): ReadonlySet<string> {
    const found = new Set<string>();
    if (name === "") return found;
    for (const names of [this.#ids, this.#spoken]) {
      for (const [known, ids] of names) if (known.startsWith(name)) for (const id of ids) found.add(id);
    }
    return found;
  }
}

function addTo(names: Map<string, Set<string>>, name: string, id: string): void {
  const ids = names.get(name) ?? new Set();
  names.set(name, ids.add(id));
}

/** Case and spaces do not part two names. */
function asCompared(name: string): string {
  return name.trim().toLowerCase().replace(/\s+/g, " ");
}

function listed(names: readonly string[]): string {
  const more = names.length > MOST_TOLD ? ` and ${names.length - MOST_TOLD} more` : "";
  return `${names.slice(0, MOST_TOLD).join(" · ")}${more}.`;
}

function count(names: readonly string[]): string {
  return names.length === 1 ? "is" : "are";
}
