import type { Machine } from "../sheet/index.ts";

/** Joints in series that nothing a probe can touch parts; electrically one thing. */
export interface JointGroup {
  /** Part indices, in machine order. */
  readonly parts: readonly number[];
  /** Nodes at its two ends. */
  readonly ends: readonly [number, number];
}

/**
 * Gathers joints into chains. Two joints belong together when they meet at a node where nothing else is connected and
 * which no probe can touch. A joint is any part marked as one that has a single element.
 *
 * @source sheet-format 2.13
 */
export function jointGroups(machine: Machine): JointGroup[] {
  const touched = new Set(machine.points.map((point) => point.node));
  const ends = new Map<number, number>();
  for (const { a, b, what, values } of machine.elements) {
    // A leak that is absent in a good machine joins nothing.
    if (what === "leak" && values.every(({ nominal }) => nominal === Infinity)) continue;
    for (const node of [a, b]) ends.set(node, (ends.get(node) ?? 0) + 1);
  }
  const joints = new Map<number, { part: number; a: number; b: number }>();
  machine.parts.forEach((part, index) => {
    if (part.joint === undefined || part.elements.length !== 1) return;
    const { a, b } = machine.elements[part.elements[0]];
    joints.set(index, { part: index, a, b });
  });
  const meeting = new Map<number, number[]>();
  for (const { part, a, b } of joints.values()) {
    for (const node of [a, b]) {
      if (touched.has(node) || ends.get(node) !== 2) continue;
      meeting.set(node, [...(meeting.get(node) ?? []), part]);
    }
  }
  const groups: JointGroup[] = [];
  const seen = new Set<number>();
  for (const { part: first } of joints.values()) {
    if (seen.has(first)) continue;
    const chain = [first];
    const loose: number[] = [];
    seen.add(first);
    for (const part of chain) {
      const joint = joints.get(part);
      if (joint === undefined) continue;
      for (const node of [joint.a, joint.b]) {
        const pair = meeting.get(node);
        const next = pair?.length === 2 ? pair.find((other) => other !== part) : undefined;
        if (next === undefined) loose.push(node);
        else if (!seen.has(next)) {
          seen.add(next);
          chain.push(next);
        }
      }
    }
    const [one, other] = [loose[0] ?? joints.get(first)?.a ?? 0, loose[1] ?? joints.get(first)?.b ?? 0];
    groups.push({ parts: chain.sort((a, b) => a - b), ends: [one, other] });
  }
  return groups;
}
