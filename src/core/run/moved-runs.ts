import type { Effect } from "../fault/index.ts";
import type { Machine } from "../sheet/index.ts";
import { Chains } from "./chains.ts";
import type { Looked } from "./live.ts";
import type { Ran } from "./programme.ts";

/** One bad place on a chain: ohms in series, Infinity where it is open. */
interface OneBad {
  readonly element: number;
  readonly ohms: number;
}

interface Kept {
  readonly element: number;
  readonly looked: Looked;
  readonly ran: Ran;
}

/**
 * Runs that stand for those of the same fault elsewhere on its chain. Two joints in one wire, open or bad by the same ohms,
 * leave every current alike, and every voltage but their own and that of the nodes between them. If nothing looked at those
 * while the one ran, the other runs alike, step for step.
 */
export class MovedRuns {
  readonly #chains: Chains;
  readonly #kept = new Map<string, Kept[]>();

  constructor(machine: Machine) {
    this.#chains = new Chains(machine);
  }

  /** What was run of such a fault, where it stands for this one. */
  find(effects: readonly Effect[]): Ran | undefined {
    const bad = oneBad(effects);
    if (bad === undefined) return undefined;
    return this.#kept.get(this.#keyOf(bad))?.find((kept) => this.#standsFor(kept, bad.element))?.ran;
  }

  /** Keeps a run, and what was looked at while it ran. */
  keep(effects: readonly Effect[], looked: Looked, ran: Ran): void {
    const bad = oneBad(effects);
    if (bad === undefined || looked.elements[bad.element] === 1) return;
    const copy = { elements: looked.elements.slice(), nodes: looked.nodes.slice() };
    const kept = { element: bad.element, looked: copy, ran };
    const key = this.#keyOf(bad);
    this.#kept.set(key, [...(this.#kept.get(key) ?? []), kept]);
  }

  #standsFor({ element, looked }: Kept, other: number): boolean {
    if (looked.elements[other] === 1) return false;
    return this.#chains.nodesBetween(element, other).every((node) => looked.nodes[node] === 0);
  }

  #keyOf(bad: OneBad): string {
    return `${this.#chains.of[bad.element]} ${bad.ohms}`;
  }
}

function oneBad(effects: readonly Effect[]): OneBad | undefined {
  if (effects.length !== 1) return undefined;
  const [effect] = effects;
  if (effect.does === "open") return { element: effect.element, ohms: Number.POSITIVE_INFINITY };
  return effect.does === "series" ? effect : undefined;
}
