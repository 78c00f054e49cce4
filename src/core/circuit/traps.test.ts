import { expect, test } from "vitest";
import { network, type TestElement } from "../../../test/oracle/network.ts";
import { askDeck } from "./ask-deck.ts";
import { strictGuard } from "./compile.ts";

// Exact values: rational arithmetic (ohms, DC) and 50-digit arithmetic (AC) on the doubles given; 0 is the chassis,
// mains is 230 V 50 Hz at node 1 unless another source is named.
const open = Number.POSITIVE_INFINITY;
const mains: TestElement = [1, 0, "V", 230];

function close(found: number, exact: number, relative = 1e-13): void {
  expect(Math.abs(found - exact)).toBeLessThanOrEqual(relative * Math.abs(exact));
}

function asked(deck: string, question: object): { re: number; im: number } {
  const answers = askDeck(deck, { hertz: 50, questions: [{ id: "q", ...question }] });
  const first = answers.ok ? answers.value[0] : undefined;
  if (first === undefined || !("value" in first)) throw new Error(JSON.stringify(answers));
  return { re: first.re ?? first.value, im: first.im ?? 0 };
}

function ohms(elements: readonly TestElement[], p: number, q: number): number {
  return network(elements).ohmmeter().ohms(p, q);
}

test("a bridge cut at 10 Ω leaves an island that reads open, because of that part, and 20 Ω beyond it", () => {
  const cut: TestElement[] = [
    [1, 2, "R", open],
    [2, 3, "R", 20],
    [3, 0, "R", 1e9],
  ];
  const meter = network(cut).ohmmeter();
  expect(meter.ohms(1, 3)).toBe(open);
  expect(meter.because(1, 3)).toEqual([0]);
  expect(meter.ohms(2, 3)).toBe(20);
});

test("a floating ring of 1 and 2 mΩ beside 10 GΩ keeps all its digits", () => {
  const ring: TestElement[] = [
    [1, 2, "R", 1e-3],
    [2, 3, "R", 2e-3],
    [3, 4, "R", 1e10],
    [4, 1, "R", 1e10],
  ];
  close(ohms(ring, 1, 2), 9.9999999999995e-4);
  close(ohms(ring, 2, 3), 1.9999999999998e-3);
  close(ohms(ring, 1, 4), 5000000000.00075, 1e-15);
});

test("insulation of 385 MΩ behind milliohms is exact to 1e-13", () => {
  const machine: TestElement[] = [
    [1, 2, "R", 1e-3],
    [2, 3, "R", 20e-3],
    [1, 3, "R", 30e-3],
    [2, 0, "R", 1e10],
    [3, 0, "R", 4e8],
  ];
  close(ohms(machine, 1, 0), 384615384.62685055);
  close(ohms(machine, 1, 3), 0.01235294117645728);
});

test("an open 26 Ω hidden by 1 MΩ beside it reads 1 MΩ, not open", () => {
  close(
    ohms(
      [
        [1, 2, "R", open],
        [1, 2, "R", 1e6],
        [2, 3, "R", 20e-3],
      ],
      1,
      3,
    ),
    1000000.02,
    1e-15,
  );
});

test("a wire floating over 100 pF shows a phantom of 69 V to 10 MΩ and 2.9 V to 400 kΩ", () => {
  const solver = network([[1, 2, "C", 100e-12], mains]).ac();
  close(solver.metered(2, 0, 1e7).volts, 68.934864825515);
  close(solver.metered(2, 0, 4e5).volts, 2.8900370621303);
});

test("an open triac's snubber shows 230 V behind the load and 41 mV across it", () => {
  const solver = network([[1, 2, "R", 26], [2, 3, "R", 100], [3, 0, "C", 22e-9], mains]).ac();
  close(solver.metered(2, 0, 1e7).volts, 229.999369722408);
  close(solver.metered(1, 2, 1e7).volts, 0.0413306698187125);
});

test("a winding at DC beside a dead short reads 0 Ω exactly, and what follows it 10 Ω", () => {
  const elements: TestElement[] = [
    [1, 2, "R", 0],
    [1, 2, "L", 0.1],
    [2, 3, "R", 10],
  ];
  expect(ohms(elements, 1, 2)).toBe(0);
  expect(ohms(elements, 1, 3)).toBe(10);
});

test("two faults on one pair of nodes, 10 Ω open beside 20 + 5 Ω, read 25 Ω", () => {
  expect(
    ohms(
      [
        [1, 2, "R", open],
        [1, 2, "R", 25],
      ],
      1,
      2,
    ),
  ).toBe(25);
});

test("a bridge 1e-9 off balance is beyond doubles; the guard sees it and double-double gives 13 digits", () => {
  const bridge: TestElement[] = [
    [1, 2, "R", 100],
    [2, 0, "R", 100],
    [1, 3, "R", 100],
    [3, 0, "R", 100.0000001],
    [2, 3, "R", 50],
    [1, 0, "V", 10],
  ];
  const exact = -8.333332833042977e-10;
  const strict = network(bridge).dc(strictGuard);
  // 1 / 100.0000001 is rounded on the way in, which this balance magnifies a millionfold; the deck below gives ohms.
  expect(Math.abs(strict.volts(2, 3).re - exact)).toBeLessThan(1e-6 * Math.abs(exact));
  expect(strict.wideSolves).toBe(1);
  const loose = network(bridge).dc({ relative: 1, floorVolts: 0 });
  const distance = Math.abs(loose.volts(2, 3).re - strict.volts(2, 3).re);
  expect(loose.wideSolves).toBe(0);
  expect(loose.error).toBeGreaterThan(1e-9 * Math.abs(exact));
  expect(distance).toBeLessThan(loose.error);
  const deck = "balance\nr1 1 2 100\nr2 2 0 100\nr3 1 3 100\nr4 3 0 100.0000001\nr5 2 3 50\nv1 1 0 10\n";
  close(asked(deck, { dc: true, volts: ["2", "3"] }).re, exact, 1e-13);
});

test("near resonance, 72 MV over a capacitor of 10.1321183 µF, the complex error stays under 1e-10 of the value", () => {
  const deck = "resonance\nv1 1 0 AC 230\nr1 1 2 1m\nl1 2 3 1\nc1 3 0 10.1321183u\n";
  const low = asked(deck, { volts: ["2", "0"] });
  expect(Math.hypot(low.re - 9.12330677572185e-4, low.im + 0.458077748307356)).toBeLessThan(1e-13 * 0.458);
  const high = asked(deck, { volts: ["3", "0"] });
  expect(Math.hypot(high.re - 143909.371797865, high.im + 72256344.8735076)).toBeLessThan(1e-10 * 72256488);
});

test("a leak of 100 kΩ from a floating island joins it: 100005 and 100012 Ω, and open without it", () => {
  const leak = (r: number): TestElement[] => [
    [1, 2, "R", 5],
    [3, 0, "R", 7],
    [1, 0, "R", r],
  ];
  close(ohms(leak(1e5), 2, 0), 100005, 1e-15);
  close(ohms(leak(1e5), 2, 3), 100012, 1e-15);
  expect(ohms(leak(open), 2, 0)).toBe(open);
  expect(ohms(leak(open), 2, 3)).toBe(open);
});

test("an unloaded supply drops 0.14 µV over 0.25 Ω, to 15 digits", () => {
  const elements: TestElement[] = [[1, 2, "R", 0.25], [2, 0, "R", 4e8], mains];
  for (const solver of [network(elements).ac(), network(elements).dc()])
    close(solver.volts(1, 2).re, 1.4374999991015625e-7, 1e-15);
});

test("an island that touches nothing floats at 0 V, and is dead across itself, without a second solve", () => {
  const solver = network([[3, 4, "R", 10], [1, 2, "R", 10], [2, 0, "R", 10], mains]).ac(strictGuard);
  expect(solver.metered(3, 0, 1e7)).toEqual({ volts: 0, floats: true });
  expect(solver.metered(3, 4, 1e7)).toEqual({ volts: 0, floats: false });
  expect(solver.wideSolves).toBe(0);
});

test("a contact in a dead branch drops 5 nV and its heater 6 µV, to 13 digits", () => {
  const elements: TestElement[] = [
    [1, 2, "R", 30e-3],
    [2, 3, "R", 20e-3],
    [3, 4, "R", 26],
    [4, 5, "R", 1e9],
    [5, 0, "R", 20e-3],
    [3, 0, "R", 1e10],
    mains,
  ];
  const solver = network(elements).ac(strictGuard);
  close(solver.volts(2, 3).re, 5.0599998800297e-9);
  close(solver.volts(3, 4).re, 5.979999844071503e-6);
});

test("behind a lost return the load shows 0 V exactly, and the break 230 V", () => {
  const elements: TestElement[] = [
    [1, 2, "R", 20e-3],
    [2, 3, "R", 26],
    [3, 4, "R", open],
    [4, 0, "R", 0.25],
    [2, 0, "R", 1e8],
    mains,
  ];
  const solver = network(elements).ac(strictGuard);
  expect(solver.metered(2, 3, 1e7).volts).toBe(0);
  close(solver.metered(3, 0, 1e7).volts, 229.999401495557);
  close(solver.metered(3, 4, 1e7).volts, 229.999395745587);
});

test("along 40 joints of 1 µΩ and 1 PΩ by turns nothing underflows to a false open", () => {
  const chain = Array.from({ length: 40 }, (_, n): TestElement => [n, n + 1, "R", n % 2 === 0 ? 1e-6 : 1e15]);
  const rungs = Array.from({ length: 40 }, (_, n): TestElement => [0, n + 1, "R", n % 2 === 0 ? 1e15 : 1e-6]);
  const meter = network([...chain, ...rungs]).ohmmeter();
  for (let p = 0; p <= 40; p++)
    for (let q = 0; q < p; q++) {
      expect(meter.ohms(p, q)).toBeGreaterThan(1e-7);
      expect(meter.ohms(p, q)).toBeLessThan(1e16);
    }
});

test("an edge that a fault may add costs nothing while it is 0 and needs no new schedule when it is not", () => {
  const { circuit, re } = network([
    [1, 2, "R", 5],
    [3, 0, "R", 7],
    [1, 0, "R", open],
  ]);
  const meter = circuit.ohmmeter();
  meter.g.set(re);
  meter.solve();
  expect(meter.ohms(2, 3)).toBe(open);
  meter.g[2] = 1e-5;
  meter.solve();
  close(meter.ohms(2, 3), 100012, 1e-15);
});

test("readings whose exact value is 0 stay under 1e-15 of the source", () => {
  const bridge: TestElement[] = [
    [1, 2, "R", 3],
    [2, 0, "R", 7],
    [1, 3, "R", 30],
    [3, 0, "R", 70],
    [2, 3, "R", 1],
    [3, 4, "R", 5],
    mains,
  ];
  const solver = network(bridge).ac(strictGuard);
  expect(Math.abs(solver.volts(2, 3).re)).toBeLessThan(230e-15);
  expect(solver.magnitude(3, 4)).toBe(0);
});
