import fc from "fast-check";
import { expect, test } from "vitest";
import { askDeck, readDeck, type WrittenElement, writeDeck } from "../../src/core/circuit/index.ts";
import { type Simulated, simulate, withAnalysis } from "./simulator.ts";

// Oracle: ngspice as packed by eecircuit-engine 1.8.0 (dev dependency), a general circuit simulator, at its own accuracy.

const hertz = 50;
const seed = 7;
const decksDrawn = 12;

/** A deck's nodes and voltage sources, asked of door A in one go. */
function ours(deck: string, dc: boolean): Simulated {
  const read = readDeck(deck);
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  const nodes = [...new Set(read.value.elements.flatMap(({ a, b }) => [a, b]))].filter((node) => node !== "0");
  const sources = read.value.elements.filter(({ kind, name }) => kind === "V" && !name.includes("."));
  const answers = askDeck(deck, {
    hertz,
    questions: [
      ...nodes.map((node) => ({ id: `v(${node})`, dc, volts: [node, "0"] })),
      ...sources.map(({ name }) => ({ id: `i(${name})`, dc, amps: name })),
    ],
  });
  if (!answers.ok) throw new Error(JSON.stringify(answers.issues));
  return new Map(
    answers.value.map((answer) => {
      if (!("value" in answer)) throw new Error(JSON.stringify(answer));
      return [answer.id.toLowerCase(), { re: answer.re ?? answer.value, im: answer.im ?? 0 }];
    }),
  );
}

/** Largest difference between two sets of values, relative to the value or, near 0, to the largest of its kind. */
function worstDifference(mine: Simulated, theirs: Simulated): number {
  let worst = 0;
  for (const [name, { re, im }] of mine) {
    const other = theirs.get(name);
    if (other === undefined) throw new Error(`the simulator gives no ${name}`);
    const kind = [...theirs].filter(([key]) => key[0] === name[0]).map(([, value]) => Math.hypot(value.re, value.im));
    const scale = Math.max(Math.hypot(re, im), 1e-6 * Math.max(...kind));
    worst = Math.max(worst, Math.hypot(other.re - re, other.im - im) / scale);
  }
  return worst;
}

const machineDeck = `heater with filter, two poles and a module supply
* the house
Vmains line 0 DC 0 AC 230
Rline line l 0.25
Rneut 0 n 20m
Rearth 0 pe 300m
* filter as a subcircuit with a nested choke
.subckt filter li ni lo no e
Cx li ni 470n
Rbleed li ni 1meg
.subckt choke a b
L a m 1m
Rw m b
+ 50m
.ends choke
X1 li lo choke
X2 ni no choke
Cy1 lo e 4.7n
Cy2 no e 4.7n
.ends filter
Xf l n lf nf pe filter
Rpole1 lf h1 15m
Rheat h1 h2 24
Rpole2 h2 nf 22m   ; second pole
Rleak h1 pe 2.2meg
Vammeter nf nm 0
Rmotor nm m1 38
Lmotor m1 m2 120m
Rm m2 lf 10m
Vrail v5 nf DC 5
Rsense v5 s 10k
Rntc s nf 4.7k
Isense nf s DC 100u AC 0
.op
.end
`;

/** A ladder with rungs, capacitors, coils and two sources, every node with a DC way to ground. */
const drawn = fc
  .record({
    ladder: fc.array(fc.double({ min: -2, max: 5, noNaN: true }), { minLength: 9, maxLength: 9 }),
    rungs: fc.array(
      fc.record({
        kind: fc.constantFrom("R", "C", "L"),
        a: fc.nat(9),
        b: fc.nat(9),
        power: fc.double({ min: 0, max: 3, noNaN: true }),
      }),
      { minLength: 5, maxLength: 12 },
    ),
    volts: fc.double({ min: 1, max: 400, noNaN: true }),
    degrees: fc.integer({ min: -179, max: 180 }),
    milliamperes: fc.double({ min: 0.1, max: 50, noNaN: true }),
  })
  .map(({ ladder, rungs, volts, degrees, milliamperes }): WrittenElement[] => [
    ...ladder.map(
      (power, n): WrittenElement => ({ name: `Rl${n}`, kind: "R", a: `${n}`, b: `${n + 1}`, value: 10 ** power }),
    ),
    ...rungs.flatMap(({ kind, a, b, power }, n): WrittenElement[] => {
      if (a === b) return [];
      const ends = { a: `${a}`, b: `${b}` };
      if (kind === "R") return [{ name: `Rr${n}`, kind, ...ends, value: 10 ** power }];
      // A coil gets a winding resistance, or the simulator would meet a loop of shorts.
      return kind === "C"
        ? [{ name: `C${n}`, kind, ...ends, value: 1e-9 * 10 ** power }]
        : [
            { name: `L${n}`, kind: "L", a: ends.a, b: `w${n}`, value: 1e-3 * 10 ** power },
            { name: `Rw${n}`, kind: "R", a: `w${n}`, b: ends.b, value: 0.5 * 10 ** power },
          ];
    }),
    { name: "V1", kind: "V", a: "9", b: "0", value: 12, ac: { magnitude: volts, degrees } },
    { name: "V2", kind: "V", a: "z", b: "4", value: 5, ac: { magnitude: 0, degrees: 0 } },
    { name: "Rz", kind: "R", a: "z", b: "2", value: 330 },
    { name: "I1", kind: "I", a: "0", b: "5", value: 1e-3 * milliamperes, ac: { magnitude: 1e-3, degrees: 45 } },
  ]);

test(`nodes and source currents of a filtered heater and of ${decksDrawn} random decks agree with a general simulator, DC and AC (seed ${seed})`, async () => {
  const decks = [
    machineDeck.replace(".op\n", ""),
    ...fc.sample(drawn, { seed, numRuns: decksDrawn }).map((elements) => writeDeck("drawn", elements).text),
  ];
  const { results } = await simulate(decks.flatMap((deck) => [withAnalysis(deck), withAnalysis(deck, hertz)]));
  decks.forEach((deck, at) => {
    expect(worstDifference(ours(deck, true), results[2 * at])).toBeLessThan(1e-6);
    expect(worstDifference(ours(deck, false), results[2 * at + 1])).toBeLessThan(1e-9);
  });
}, 120_000);
