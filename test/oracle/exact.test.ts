import fc from "fast-check";
import { expect, test } from "vitest";
import { askDeck, ohmsTable, rowOf, strictGuard, writeDeck } from "../../src/core/circuit/index.ts";
import { ExactComplex, exactOhms, exactPhasors, exactPotentials } from "./exact-nodal.ts";
import { network, type TestElement } from "./network.ts";
import { Rational } from "./rational.ts";

// Truth: nodal equations in exact fractions on the very doubles given (exact-nodal.ts).

const seed = 20;
/** From milliohm contacts to insulation, with opens among them. */
const ohms = fc.oneof(
  { weight: 6, arbitrary: fc.double({ min: -3, max: 10, noNaN: true }).map((power) => 10 ** power) },
  { weight: 2, arbitrary: fc.constantFrom(1e-3, 1e-2, 26.5, 1e10) },
  { weight: 2, arbitrary: fc.constant(Number.POSITIVE_INFINITY) },
);
const nodeCount = 11;
/** A chain with rungs, as wiring is, that opens break into islands. */
const wiring = fc
  .record({
    chain: fc.array(ohms, { minLength: nodeCount - 1, maxLength: nodeCount - 1 }),
    rungs: fc.array(fc.tuple(fc.nat(nodeCount - 1), fc.nat(nodeCount - 1), ohms), { minLength: 2, maxLength: 9 }),
  })
  .map(({ chain, rungs }): TestElement[] => [
    ...chain.map((r, n): TestElement => [n, n + 1, "R", r]),
    ...rungs.filter(([a, b]) => a !== b).map(([a, b, r]): TestElement => [a, b, "R", r]),
    [nodeCount - 1, 0, "R", 1e9],
  ]);
const resistors = (elements: readonly TestElement[]) =>
  elements.filter(([, , kind]) => kind === "R").map(([a, b, , r]) => ({ a, b, ohms: r }));

test(`ohms between all points of 60 random circuits from 1 mΩ to 10 GΩ are exact to 1e-14, opens and all (seed ${seed})`, () => {
  let readings = 0;
  let opens = 0;
  fc.assert(
    fc.property(wiring, (elements) => {
      const meter = network(elements).ohmmeter();
      for (const [p, q] of [
        [0, 5],
        [1, 10],
        [3, 4],
        [2, 9],
        [6, 8],
      ] as const) {
        const exact = exactOhms(nodeCount, resistors(elements), p, q);
        const found = meter.ohms(p, q);
        readings++;
        if (exact === undefined) {
          opens++;
          expect(found).toBe(Number.POSITIVE_INFINITY);
          expect(meter.because(p, q).every((e) => elements[e][3] === Number.POSITIVE_INFINITY)).toBe(true);
        } else expect(exact.relativeErrorOf(found)).toBeLessThan(1e-14);
      }
    }),
    { seed, numRuns: 60 },
  );
  expect(readings).toBe(300);
  expect(opens).toBeGreaterThan(10);
}, 120_000);

test(`DC volts of 60 random circuits under a 5 V rail are exact to 1e-12 behind the strict guard (seed ${seed})`, () => {
  fc.assert(
    fc.property(wiring, (elements) => {
      const exact = exactPotentials(nodeCount, resistors(elements), [
        { node: 7, volts: 5 },
        { node: 0, volts: 0 },
      ]);
      const solver = network([...elements, [7, 0, "V", 5]]).dc(strictGuard);
      for (let p = 0; p < nodeCount; p++)
        for (let q = 0; q < p; q++) {
          const [high, low] = [exact[p], exact[q]];
          if (high === undefined || low === undefined) continue;
          const difference = high.minus(low);
          const found = solver.volts(p, q).re;
          // Conductances 1/R are rounded on the way in: what is left of a balance under 1e-15 V is that rounding.
          const near = Math.max(1e-12 * Math.abs(difference.toNumber()), 1e-22);
          expect(Math.abs(found - difference.toNumber())).toBeLessThan(near);
        }
    }),
    { seed, numRuns: 60 },
  );
}, 120_000);

test(`door A gives volts and ohms of 40 random decks to 4e-16, the rounding of the answer itself (seed ${seed})`, () => {
  let readings = 0;
  fc.assert(
    fc.property(wiring, (elements) => {
      const all: TestElement[] = [...elements, [7, 0, "V", 5]];
      const { text, elementNames } = writeDeck(
        "random wiring",
        all.map(([a, b, kind, value], e) => ({ name: `${kind}${e}`, kind, a: `n${a}`, b: `n${b}`, value })),
        "n0",
      );
      const nodeName = (n: number): string => (n === 0 ? "0" : `n${n}`);
      const questions = [
        [0, 5],
        [1, 10],
        [3, 4],
        [2, 9],
        [6, 8],
      ].flatMap(([p, q]) => [
        { id: `V ${p} ${q}`, dc: true, volts: [nodeName(p), nodeName(q)] },
        { id: `R ${p} ${q}`, remove: [elementNames.at(-1)], ohms: [nodeName(p), nodeName(q)] },
      ]);
      const answers = askDeck(text, { questions });
      if (!answers.ok) {
        // A node that only opens touch is not in the deck at all.
        expect(answers.issues.every(({ expected }) => expected === "the name of a node of the deck")).toBe(true);
        return;
      }
      const potentials = exactPotentials(nodeCount, resistors(elements), [
        { node: 7, volts: 5 },
        { node: 0, volts: 0 },
      ]);
      for (const answer of answers.value) {
        const [kind, p, q] = answer.id.split(" ");
        const [high, low] = [potentials[Number(p)], potentials[Number(q)]];
        if (kind === "V" && (high === undefined || low === undefined)) continue;
        const exact =
          kind === "V" && high !== undefined && low !== undefined
            ? high.minus(low)
            : exactOhms(nodeCount, resistors(elements), Number(p), Number(q));
        readings++;
        if (exact === undefined) expect("open" in answer).toBe(true);
        else if (!("value" in answer)) expect.fail(JSON.stringify(answer));
        else expect(exact.relativeErrorOf(answer.re ?? answer.value)).toBeLessThan(4e-16);
      }
    }),
    { seed, numRuns: 40 },
  );
  expect(readings).toBeGreaterThan(200);
}, 120_000);

test("a table of 66 pairs of opens and shorts equals the exact answer of each circuit to 1e-14", () => {
  const elements: TestElement[] = [
    [0, 1, "R", 0.02],
    [1, 2, "R", 26],
    [2, 3, "R", 0.005],
    [3, 4, "R", 0.03],
    [4, 5, "R", 1e6],
    [5, 0, "R", 0.25],
    [2, 5, "R", 4e8],
    [1, 4, "R", 47e3],
    [3, 0, "R", 1e10],
    [2, 4, "R", 30],
    [0, 4, "R", 2.2e6],
    [1, 3, "R", 1e9],
  ];
  const { circuit, re } = network(elements);
  const faults = elements.map(([, , , r], element) => ({ element, re: element % 2 === 0 ? 0 : 1 / (r + 5), im: 0 }));
  const probes = [
    { a: 0, b: 3 },
    { a: 1, b: 2 },
    { a: 5, b: 2 },
    { a: 4, b: 3 },
  ];
  const table = ohmsTable(circuit, re, faults, probes);
  let worst = 0;
  let opens = 0;
  for (let first = 0; first < 12; first++)
    for (let second = first + 1; second < 12; second++) {
      const values = resistors(elements).map((resistor, e) => {
        if (e !== first && e !== second) return resistor;
        return { ...resistor, ohms: e % 2 === 0 ? Number.POSITIVE_INFINITY : resistor.ohms + 5 };
      });
      probes.forEach(({ a, b }, p) => {
        const found = table.values[rowOf(12, first, second) * 4 + p];
        const exact = exactOhms(6, values, a, b);
        if (exact === undefined) {
          opens++;
          expect(found).toBe(Number.POSITIVE_INFINITY);
        } else worst = Math.max(worst, exact.relativeErrorOf(found));
      });
    }
  expect(worst).toBeLessThan(1e-14);
  expect(opens).toBe(0);
});

/** π to 45 digits (from memory; the last digits matter to nothing here). */
const pi = Rational.of(3141592653589793238462643383279502884197169399n, 10n ** 45n);
const omega = pi.times(Rational.from(100));

test(`door A gives AC volts and amps of 15 random decks at 50 Hz, milliohms to 10 GΩ, to 1e-15 of the modulus (seed ${seed})`, () => {
  const size = 7;
  const part = fc.tuple(
    fc.nat(size - 1),
    fc.nat(size - 1),
    fc.constantFrom("R" as const, "C" as const, "L" as const),
    fc.double({ min: 0, max: 1, noNaN: true }),
  );
  const scale = { R: [-3, 13], C: [-12, 7], L: [-4, 5] } as const;
  let readings = 0;
  fc.assert(
    fc.property(fc.array(part, { minLength: 4, maxLength: 9 }), (drawn) => {
      const elements: TestElement[] = [
        ...Array.from({ length: size - 1 }, (_, n): TestElement => [n, n + 1, "R", 10 ** (n - 2)]),
        ...drawn
          .filter(([a, b]) => a !== b)
          .map(([a, b, kind, share]): TestElement => [a, b, kind, 10 ** (scale[kind][0] + share * scale[kind][1])]),
      ];
      const one = Rational.from(1);
      const siemens = elements.map(([a, b, kind, x]) => {
        const value = Rational.from(x);
        if (kind === "R") return { a, b, value: new ExactComplex(one.over(value), Rational.zero) };
        if (kind === "C") return { a, b, value: new ExactComplex(Rational.zero, omega.times(value)) };
        return { a, b, value: new ExactComplex(Rational.zero, Rational.zero.minus(one.over(omega.times(value)))) };
      });
      const exact = exactPhasors(size, siemens, { node: size - 1, volts: 230 });
      const { text } = writeDeck("random AC", [
        ...elements.map(([a, b, kind, value], e) => ({ name: `${kind}${e}`, kind, a: `${a}`, b: `${b}`, value })),
        { name: "V", kind: "V", a: `${size - 1}`, b: "0", value: 0, ac: { magnitude: 230, degrees: 0 } },
      ]);
      const pairs = [
        [0, 3],
        [1, 2],
        [5, 4],
        [2, 6],
      ] as const;
      const answers = askDeck(text, {
        hertz: 50,
        questions: [
          ...pairs.map(([a, b]) => ({ id: `${a}-${b}`, volts: [`${a}`, `${b}`] })),
          ...elements.map(([, , kind], e) => ({ id: `amps ${e}`, amps: `${kind}${e}` })),
        ],
      });
      if (!answers.ok) throw new Error(JSON.stringify(answers.issues));
      const truths = [
        ...pairs.map(([a, b]) => exact[a].minus(exact[b])),
        ...siemens.map(({ a, b, value }) => exact[a].minus(exact[b]).times(value)),
      ];
      answers.value.forEach((answer, at) => {
        if (!("value" in answer)) throw new Error(JSON.stringify(answer));
        const [re, im] = [truths[at].re.toNumber(), truths[at].im.toNumber()];
        expect(Math.hypot((answer.re ?? 0) - re, (answer.im ?? 0) - im)).toBeLessThanOrEqual(
          1e-15 * Math.hypot(re, im),
        );
        readings++;
      });
    }),
    { seed, numRuns: 15 },
  );
  expect(readings).toBeGreaterThan(150);
}, 120_000);
