import fc from "fast-check";
import { expect, test } from "vitest";
import { askDeck, strictGuard, type WrittenElement, writeDeck } from "../../src/core/circuit/index.ts";
import { network, type TestElement } from "../oracle/network.ts";

// A circuit written as a deck and read again is the same circuit.

const seed = 29;
const runs = 100;
const nodes = 7;
const value = (kind: "R" | "C" | "L", power: number): number =>
  kind === "R" ? 10 ** power : kind === "C" ? 1e-9 * 10 ** (power / 2) : 1e-3 * 10 ** (power / 3);
const extra = fc.tuple(
  fc.nat(nodes - 1),
  fc.nat(nodes - 1),
  fc.constantFrom("R" as const, "C" as const, "L" as const),
  fc.double({ min: -2, max: 7, noNaN: true }),
);
const circuit = fc
  .array(extra, { minLength: 2, maxLength: 2 * nodes })
  .map((drawn): TestElement[] => [
    ...Array.from({ length: nodes - 1 }, (_, n): TestElement => [n, n + 1, "R", 1 + 10 * n]),
    ...drawn.filter(([a, b]) => a !== b).map(([a, b, kind, power]): TestElement => [a, b, kind, value(kind, power)]),
    [nodes - 1, 0, "V", 230],
  ]);

test(`AC volts between any two nodes, asked of the written deck, are those of the circuit, to 1e-9 (${runs} circuits, seed ${seed})`, () => {
  let compared = 0;
  fc.assert(
    fc.property(circuit, fc.nat(nodes - 1), fc.nat(nodes - 1), (elements, p, q) => {
      if (p === q) return;
      const written = elements.map(([a, b, kind, size], e): WrittenElement => {
        const ends = { name: `part ${e}`, a: `node ${a}`, b: `node ${b}` };
        return kind === "V"
          ? { ...ends, kind, value: 0, ac: { magnitude: size, degrees: 0 } }
          : { ...ends, kind, value: size };
      });
      const deck = writeDeck("drawn", written, "node 0");
      const asked = [p, q].map((node) => deck.nodeNames.get(`node ${node}`) ?? "");
      const answered = askDeck(deck.text, { hertz: 50, questions: [{ id: "q", volts: asked }] });
      if (!answered.ok) throw new Error(JSON.stringify(answered.issues));
      const [answer] = answered.value;
      const { re, im } = network(elements).ac(strictGuard).volts(p, q);
      if (!("value" in answer)) throw new Error(JSON.stringify(answer));
      expect(Math.abs(answer.value - Math.hypot(re, im))).toBeLessThanOrEqual(1e-9 * answer.value + 1e-12);
      compared++;
    }),
    { seed, numRuns: runs },
  );
  expect(compared).toBeGreaterThan(runs / 2);
});
