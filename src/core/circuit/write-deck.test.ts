import fc from "fast-check";
import { expect, test } from "vitest";
import { readDeck } from "./read-deck.ts";
import { rewriteDeck, type WrittenElement, writeDeck } from "./write-deck.ts";

const seed = 13;
const kinds = ["R", "C", "L", "V", "I"] as const;
const anyName = fc.oneof(
  fc.constantFrom(
    "heater.first1",
    "R1",
    "r1",
    "joint X3.1 / heater",
    "0",
    "gnd",
    "é",
    ".x",
    "+",
    "$a;b",
    "N",
    "n",
    "Vrail",
  ),
  fc.string({ minLength: 1, maxLength: 6 }),
);
const power = fc.double({ min: -9, max: 5, noNaN: true }).map((p) => 10 ** p);
const element = fc
  .record({
    name: anyName,
    kind: fc.constantFrom(...kinds),
    a: anyName,
    b: anyName,
    value: power,
    degrees: fc.integer({ min: -180, max: 180 }),
  })
  .map(
    ({ kind, degrees, ...rest }): WrittenElement =>
      kind === "V" || kind === "I" ? { ...rest, kind, ac: { magnitude: rest.value * 2, degrees } } : { ...rest, kind },
  );

test(`whatever the names, a written deck reads back as the same elements between the same nodes (200 decks, seed ${seed})`, () => {
  fc.assert(
    fc.property(fc.array(element, { minLength: 1, maxLength: 12 }), (elements) => {
      const { text, elementNames, nodeNames } = writeDeck("written", elements);
      const deck = readDeck(text);
      if (!deck.ok) throw new Error(`${text}\n${JSON.stringify(deck.issues)}`);
      expect(deck.value.elements.map(({ line: _, ...rest }) => rest)).toEqual(
        elements.map((given, e) => ({
          ...given,
          name: elementNames[e],
          a: nodeNames.get(given.a),
          b: nodeNames.get(given.b),
        })),
      );
      expect(new Set(nodeNames.values()).size).toBe(nodeNames.size);
      expect(rewriteDeck(deck.value)).toBe(text);
    }),
    { seed, numRuns: 200 },
  );
});

test("an open is left out as a comment, a short stays 0 Ω, and the ground asked for is node 0", () => {
  const { text } = writeDeck(
    "two\nlines",
    [
      { name: "cut", kind: "R", a: "PE", b: "x", value: Number.POSITIVE_INFINITY },
      { name: "link", kind: "R", a: "PE", b: "0", value: 0 },
    ],
    "PE",
  );
  expect(text).toBe("two lines\n* Rcut 0 x is open\nRlink 0 node0 0\n.end\n");
});

test("a value that no deck can hold is a mistake of the caller", () => {
  expect(() => writeDeck("t", [{ name: "v", kind: "V", a: "a", b: "b", value: Number.NaN }])).toThrow("NaN");
});
