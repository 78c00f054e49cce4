import type { Draft, DraftPart } from "./draft.ts";

/**
 * Wires by name made into nodes: names that are one wire united, then cut in two by plugs. On the inside of an owner
 * that has a plug for it a wire is another node than outside.
 */
export class Wiring {
  readonly names: string[] = [];
  readonly #nodes = new Map<string, number>();
  readonly #parents = new Map<string, string>();
  /** Owner → wires (their representatives) that reach its inside through a plug. */
  readonly #insides = new Map<string, Set<string>>();

  constructor(draft: Draft) {
    for (const [a, b] of draft.sameWire) this.#unite(a, b);
    for (const plug of draft.plugs.values()) {
      const inside = this.#insides.get(plug.of) ?? new Set();
      for (const pin of plug.pins.values()) inside.add(this.wire(pin.inside));
      this.#insides.set(plug.of, inside);
    }
  }

  /** The one name that stands for a wire and all that are the same. */
  wire(name: string): string {
    let root = name;
    for (let up = this.#parents.get(root); up !== undefined; up = this.#parents.get(root)) root = up;
    return root;
  }

  /** Node of a wire outside all owners. */
  outside(wire: string): number {
    return this.node(this.wire(wire));
  }

  /** Node of a wire as the inside of `owner` sees it. */
  inside(wire: string, owner: string): number {
    return this.node(this.#insideName(wire, owner) ?? this.wire(wire));
  }

  /** Node of the wire that ends at a pin of a part, before the pin's joint. */
  at(part: DraftPart, wire: string): number {
    const own = this.#insideName(wire, part.id);
    const shared = part.of === undefined ? undefined : this.#insideName(wire, part.of);
    return this.node(own ?? shared ?? this.wire(wire));
  }

  /** Node of that name, made when it is not there yet. */
  node(name: string): number {
    const known = this.#nodes.get(name);
    if (known !== undefined) return known;
    const made = this.names.length;
    this.names.push(name);
    this.#nodes.set(name, made);
    return made;
  }

  /** Node of that name, if there is one. */
  find(name: string): number | undefined {
    return this.#nodes.get(name);
  }

  #insideName(wire: string, owner: string): string | undefined {
    const name = this.wire(wire);
    return this.#insides.get(owner)?.has(name) ? `${name} in ${owner}` : undefined;
  }

  #unite(a: string, b: string): void {
    const [rootA, rootB] = [this.wire(a), this.wire(b)];
    if (rootA !== rootB) this.#parents.set(rootB, rootA);
  }
}
