import fc from "fast-check";
import { expect, test } from "vitest";
import { ComplexNetwork } from "./complex.ts";
import type { Network } from "./network.ts";
import { RealNetwork } from "./real.ts";
import { type Schedule, schedule } from "./schedule.ts";
import { toNumber } from "./wide.ts";
import { complexFrom } from "./wide-complex.ts";
import { type Bounded, WideNetwork } from "./wide-network.ts";

const seed = 5;
const nodes = 12;

interface Drawn {
  readonly a: number;
  readonly b: number;
  readonly re: number;
  readonly im: number;
}

const siemens = fc.oneof(
  { weight: 6, arbitrary: fc.double({ min: -9, max: 3, noNaN: true }).map((power) => 10 ** power) },
  { weight: 2, arbitrary: fc.constant(0) },
  { weight: 1, arbitrary: fc.constant(Number.POSITIVE_INFINITY) },
);
const susceptance = fc.oneof(
  fc.constant(0),
  fc.double({ min: -8, max: -1, noNaN: true }).map((power) => 10 ** power),
  fc.double({ min: -6, max: 0, noNaN: true }).map((power) => -(10 ** power)),
);
const edges = (ac: boolean) =>
  fc.array(
    fc.record({ a: fc.nat(nodes - 1), b: fc.nat(nodes - 1), re: siemens, im: ac ? susceptance : fc.constant(0) }),
    { minLength: nodes, maxLength: 2 * nodes },
  );

/** The held ends, at 230 V. */
const held = [0, 11];

function loaded(order: Schedule, network: Network, drawn: readonly Drawn[]): Network {
  const members = [...drawn.keys()].filter((e) => drawn[e].a !== drawn[e].b);
  network.load(
    Int32Array.from(members),
    Int32Array.from(members, (e) => order.edgeOf(drawn[e].a, drawn[e].b)),
    Float64Array.from(drawn, ({ re }) => re),
    Float64Array.from(drawn, ({ re, im }) => (re === Number.POSITIVE_INFINITY ? 0 : im)),
  );
  network.eliminate(true);
  network.heldRe[1] = 230;
  network.spread();
  return network;
}

function widened(order: Schedule, drawn: readonly Drawn[]): WideNetwork {
  const network = new WideNetwork(order);
  for (const { a, b, re, im } of drawn) {
    if (a === b) continue;
    if (re === Number.POSITIVE_INFINITY) network.short(order.edgeOf(a, b));
    else network.join(order.edgeOf(a, b), complexFrom(re, im));
  }
  network.eliminate(true);
  network.held[1] = complexFrom(230, 0);
  network.spread();
  return network;
}

/** Is the fast answer as near to the wide one as both say they are? */
function agree(fast: Network, { value, error }: Bounded): void {
  const gap = Math.hypot(fast.re - toNumber(value.re), fast.im - toNumber(value.im));
  expect(gap).toBeLessThanOrEqual(fast.error + error + 1e-300);
}

for (const [name, ac, make] of [
  ["real", false, (order: Schedule) => new RealNetwork(order)],
  ["complex", true, (order: Schedule) => new ComplexNetwork(order)],
] as const)
  test(`the ${name} network and the double-double one have the same islands, volts and impedances within their bounds (300 networks, seed ${seed})`, () => {
    let pairs = 0;
    fc.assert(
      fc.property(edges(ac), (drawn) => {
        const order = schedule(nodes, [...drawn, { a: 0, b: 11 }], held);
        const fast = loaded(order, make(order), drawn);
        const wide = widened(order, drawn);
        for (let p = 0; p < nodes; p++)
          for (let q = 0; q < p; q++) {
            const together = fast.root[p] === fast.root[q];
            expect(wide.root[p] === wide.root[q]).toBe(together);
            if (!together) continue;
            pairs++;
            fast.between(p, q);
            agree(fast, wide.between(p, q));
            fast.port(p, q);
            agree(fast, wide.port(p, q));
          }
        for (let edge = 0; edge < order.neighbour.length; edge++) {
          if (fast.root[order.owner[edge]] !== fast.root[order.neighbour[edge]]) continue;
          fast.difference(edge);
          agree(fast, wide.difference(edge));
        }
      }),
      { seed, numRuns: 300 },
    );
    expect(pairs).toBeGreaterThan(10_000);
  });

test("a chain of 100 joints is ordered at most 12 deep, with 2 neighbours a node and no edge but its own and one more a node", () => {
  const chain = Array.from({ length: 100 }, (_, n) => ({ a: n, b: n + 1 }));
  const order = schedule(101, chain);
  const depth = new Int32Array(101);
  let deepest = 0;
  for (let k = 100; k >= 0; k--) {
    if (order.parent[k] >= 0) depth[k] = depth[order.parent[k]] + 1;
    deepest = Math.max(deepest, depth[k]);
  }
  expect(deepest).toBeLessThanOrEqual(12);
  expect(order.neighbour.length).toBeLessThanOrEqual(200);
  for (let k = 0; k <= 100; k++) expect(order.start[k + 1] - order.start[k]).toBeLessThanOrEqual(2);
});

test("held nodes come last in their order, late ones just before", () => {
  const order = schedule(
    6,
    [
      { a: 0, b: 1 },
      { a: 1, b: 2 },
      { a: 2, b: 3 },
      { a: 3, b: 4 },
      { a: 4, b: 5 },
    ],
    [2, 4],
    [0],
  );
  expect([order.place[0], order.place[2], order.place[4]]).toEqual([3, 4, 5]);
  expect(order.free).toBe(4);
});
