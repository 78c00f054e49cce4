import { type Network, type Schedule, schedule } from "../matrix/index.ts";
import type { Shape } from "./circuit.ts";
import { behindSupply, type SourceGroup, sourceGroups } from "./sources.ts";

/**
 * How a shape's elements lie on one elimination schedule. Each group of sources has a layer of its own in which its
 * terminals are held and every other source is a dead short; the answers of the layers add.
 */
export interface Layer {
  readonly schedule: Schedule;
  /** Elements that carry an admittance here, and the edge each adds to. */
  readonly members: Int32Array;
  readonly edges: Int32Array;
  /** Edges of sources that are dead shorts here. */
  readonly shorted: Int32Array;
  /** Element → its edge, or -1 where both ends are one node. */
  readonly edgeOfElement: Int32Array;
  /** Element → +1 where its `a` is the earlier end of its edge, else -1. */
  readonly signOfElement: Int8Array;
  readonly group?: SourceGroup;
}

export interface LayerPlan {
  readonly held: readonly number[];
  readonly late: readonly number[];
  /** Sources entered as dead shorts; the others are not entered at all. */
  readonly shorted: readonly number[];
  readonly group?: SourceGroup;
}

export function layer(shape: Shape, plan: LayerPlan): Layer {
  const entered = new Set(plan.shorted);
  const ideal = new Set(shape.sources);
  const held = new Set(plan.held);
  const pairs = shape.elements.filter((_, e) => !ideal.has(e) || entered.has(e));
  const heldPairs = plan.held.flatMap((a) => [...held].filter((b) => a < b).map((b) => ({ a, b })));
  const order = schedule(shape.nodes, [...pairs, ...heldPairs], plan.held, plan.late);
  const edgeOfElement = Int32Array.from(shape.elements, ({ a, b }) => order.edgeOf(a, b));
  const members = shape.elements.map((_, e) => e).filter((e) => !ideal.has(e) && edgeOfElement[e] >= 0);
  return {
    schedule: order,
    members: Int32Array.from(members),
    edges: Int32Array.from(members, (e) => edgeOfElement[e]),
    shorted: Int32Array.from(plan.shorted, (e) => edgeOfElement[e]).filter((edge) => edge >= 0),
    edgeOfElement,
    signOfElement: Int8Array.from(shape.elements, ({ a, b }) => (order.place[a] < order.place[b] ? 1 : -1)),
    ...(plan.group === undefined ? {} : { group: plan.group }),
  };
}

/** A layer for each group of sources; one without any where a shape has none. The first also tells the islands. */
export function sourceLayers(shape: Shape): Layer[] {
  const groups = sourceGroups(shape);
  if (groups.length === 0) return [layer(shape, { held: [], late: [], shorted: [] })];
  const late = behindSupply(shape, groups);
  return groups.map((group) =>
    layer(shape, {
      held: group.terminals,
      late,
      shorted: shape.sources.filter((_, source) => !group.sources.includes(source)),
      group,
    }),
  );
}

/** Enters element admittances on a network of this layer, and its dead shorts. */
export function enter(on: Layer, network: Network, re: Float64Array, im: Float64Array): void {
  network.load(on.members, on.edges, re, im);
  for (let t = 0; t < on.shorted.length; t++) network.short(on.shorted[t]);
}
