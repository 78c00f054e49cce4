import type { Shape } from "./circuit.ts";

/** Ideal voltage sources that touch one another: all differences among their terminals are known. */
export interface SourceGroup {
  readonly terminals: readonly number[];
  /** Positions in `Shape.sources`. */
  readonly sources: readonly number[];
  /** How to reach each terminal but the first, in order: over which source, from which terminal, and in which sense. */
  readonly steps: readonly {
    readonly from: number;
    readonly to: number;
    readonly source: number;
    /** -1 when walked from the source's a to its b. */
    readonly sense: 1 | -1;
  }[];
}

/** The groups of a shape's voltage sources. Throws where sources form a loop: nothing then says what each carries. */
export function sourceGroups(shape: Shape): SourceGroup[] {
  const waiting = new Set(shape.sources.keys());
  const groups: SourceGroup[] = [];
  for (const first of shape.sources.keys()) {
    if (!waiting.has(first)) continue;
    const terminals = [shape.elements[shape.sources[first]].a];
    const sources: number[] = [];
    const steps: SourceGroup["steps"][number][] = [];
    for (let from = 0; from < terminals.length; from++) {
      for (const source of waiting) {
        const { a, b } = shape.elements[shape.sources[source]];
        if (a !== terminals[from] && b !== terminals[from]) continue;
        const other = a === terminals[from] ? b : a;
        if (terminals.includes(other))
          throw new Error(`voltage source ${shape.sources[source]} closes a loop of sources`);
        waiting.delete(source);
        sources.push(source);
        steps.push({ from, to: terminals.length, source, sense: a === terminals[from] ? -1 : 1 });
        terminals.push(other);
      }
    }
    groups.push({ terminals, sources, steps });
  }
  return groups;
}

/**
 * Nodes behind the supply resistance: the only neighbour of a source terminal. Held back until just before the
 * terminals, so that line and neutral shorted together do not meet as 115 V minus 115 V.
 */
export function behindSupply(shape: Shape, groups: readonly SourceGroup[]): number[] {
  const terminals = new Set(groups.flatMap((group) => group.terminals));
  const around = new Map<number, Set<number>>();
  for (const { a, b } of shape.elements) {
    if (terminals.has(a) && !terminals.has(b)) around.set(a, (around.get(a) ?? new Set()).add(b));
    if (terminals.has(b) && !terminals.has(a)) around.set(b, (around.get(b) ?? new Set()).add(a));
  }
  return [...new Set([...around.values()].filter((near) => near.size === 1).flatMap((near) => [...near]))];
}
