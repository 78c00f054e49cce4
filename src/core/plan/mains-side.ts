import type { Machine } from "../sheet/index.ts";

/**
 * Nodes that hang on the mains without passing a low-voltage rail. A point that is not among them hangs on a rail,
 * which may itself be tied to the mains: it is read against its own 0 V only, never against a pole or earth.
 *
 * @source rails are taken as mains-referenced, rail to rail only: common practice, no source
 */
export function mainsSide(machine: Machine): ReadonlySet<number> {
  const rails = new Set(machine.elements.filter(({ what }) => what === "V=").flatMap(({ a, b }) => [a, b]));
  const found = new Set<number>();
  const edge = machine.elements.filter(({ what }) => what === "V~").flatMap(({ a, b }) => [a, b]);
  const at = new Map<number, number[]>();
  for (const { a, b, what } of machine.elements) {
    if (what === "leak") continue;
    at.set(a, [...(at.get(a) ?? []), b]);
    at.set(b, [...(at.get(b) ?? []), a]);
  }
  for (let node = edge.pop(); node !== undefined; node = edge.pop()) {
    if (found.has(node) || rails.has(node)) continue;
    found.add(node);
    edge.push(...(at.get(node) ?? []));
  }
  return found;
}
