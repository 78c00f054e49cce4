import fc from "fast-check";
import { expect, test } from "vitest";
import { fiftyHertz, network, type TestElement } from "../../../test/oracle/network.ts";
import { strictGuard } from "./compile.ts";

// Laws any linear network obeys, on random networks of resistors, capacitors and coils with mains and a second source.

const seed = 11;
const runs = 100;
const nodes = 9;
const value = (kind: "R" | "C" | "L", power: number): number =>
  kind === "R" ? 10 ** power : kind === "C" ? 1e-9 * 10 ** (power / 2) : 1e-3 * 10 ** (power / 3);
const element = fc.tuple(
  fc.nat(nodes - 1),
  fc.nat(nodes - 1),
  fc.constantFrom("R" as const, "R" as const, "C" as const, "L" as const),
  fc.double({ min: -2, max: 7, noNaN: true }),
);
const passive = fc
  .array(element, { minLength: nodes, maxLength: 2 * nodes })
  .map((drawn): TestElement[] => [
    ...Array.from({ length: nodes - 1 }, (_, n): TestElement => [n, n + 1, "R", 1 + 10 * n]),
    ...drawn.filter(([a, b]) => a !== b).map(([a, b, kind, power]): TestElement => [a, b, kind, value(kind, power)]),
  ]);
const mains: TestElement = [nodes - 1, 0, "V", 230];
const second: TestElement = [4, 2, "V", 7];
/** Mains and a second source that do not touch; `extra` makes them touch at 0 instead. */
const driven = fc
  .tuple(passive, fc.boolean())
  .map(([elements, touching]): TestElement[] => [...elements, mains, touching ? [4, 0, "V", 7] : second]);

const modulus = ({ re, im }: { readonly re: number; readonly im: number }): number => Math.hypot(re, im);

test(`Kirchhoff: currents at every node sum to 0 within 1e-12 of the largest, sources included (${runs} circuits, seed ${seed})`, () => {
  fc.assert(
    fc.property(driven, (elements) => {
      const solver = network(elements).ac();
      const amps = elements.map((_, e) => solver.amps(e));
      const largest = Math.max(...amps.map(modulus));
      for (let node = 0; node < nodes; node++) {
        const sum = { re: 0, im: 0 };
        elements.forEach(([a, b], e) => {
          const sign = a === node ? 1 : b === node ? -1 : 0;
          sum.re += sign * amps[e].re;
          sum.im += sign * amps[e].im;
        });
        expect(modulus(sum)).toBeLessThan(1e-12 * largest);
      }
    }),
    { seed, numRuns: runs },
  );
});

test(`power given equals power taken within 1e-12, watts and reactive alike (${runs} circuits, seed ${seed})`, () => {
  fc.assert(
    fc.property(driven, (elements) => {
      const solver = network(elements).ac();
      let watts = 0;
      let reactive = 0;
      let apparent = 0;
      elements.forEach(([a, b], e) => {
        const v = solver.volts(a, b);
        const i = solver.amps(e);
        watts += v.re * i.re + v.im * i.im;
        reactive += v.im * i.re - v.re * i.im;
        apparent += modulus(v) * modulus(i);
      });
      expect(Math.abs(watts)).toBeLessThan(1e-12 * apparent);
      expect(Math.abs(reactive)).toBeLessThan(1e-12 * apparent);
    }),
    { seed, numRuns: runs },
  );
});

test(`linearity: two sources together are the sum of each alone, and each is told (${runs} circuits, seed ${seed})`, () => {
  fc.assert(
    fc.property(driven, fc.nat(nodes - 1), fc.nat(nodes - 1), (elements, p, q) => {
      const built = network(elements);
      const [both, one, two] = [
        [1, 1],
        [1, 0],
        [0, 1],
      ].map((on) => {
        const solver = built.ac(strictGuard);
        solver.emfRe.set(built.emf.map((emf, s) => emf * on[s]));
        solver.solve();
        return solver.volts(p, q);
      });
      expect(Math.hypot(both.re - one.re - two.re, both.im - one.im - two.im)).toBeLessThan(
        1e-12 * (modulus(one) + modulus(two) + 1e-3),
      );
      const solver = built.ac(strictGuard);
      solver.emfRe.set(built.emf);
      solver.solve();
      const parts = solver.bySource(p, q);
      for (const [s, alone] of [one, two].entries())
        expect(Math.hypot(parts.re[s] - alone.re, parts.im[s] - alone.im)).toBeLessThan(1e-9 * (modulus(alone) + 1e-3));
      expect(solver.volts(p, q)).toEqual(both);
    }),
    { seed, numRuns: runs },
  );
});

test(`reciprocity: a source at one pair and an ammeter at another may change places (${runs} circuits, seed ${seed})`, () => {
  fc.assert(
    fc.property(passive, (elements) => {
      const through = (from: TestElement, meter: TestElement): { re: number; im: number } =>
        network([...elements, from, [meter[0], meter[1], "R", 0]])
          .ac()
          .amps(elements.length + 1);
      const there = through([8, 0, "V", 10], [5, 3, "R", 0]);
      const back = through([5, 3, "V", 10], [8, 0, "R", 0]);
      expect(Math.hypot(there.re - back.re, there.im - back.im)).toBeLessThan(1e-9 * modulus(there) + 1e-15);
    }),
    { seed, numRuns: runs },
  );
});

test(`ohms are a distance: symmetric, 0 to oneself, and never longer by a way round (${runs} circuits, seed ${seed})`, () => {
  fc.assert(
    fc.property(passive, fc.nat(nodes - 1), fc.nat(nodes - 1), fc.nat(nodes - 1), (elements, p, q, r) => {
      const meter = network(elements).ohmmeter();
      expect(meter.ohms(p, p)).toBe(0);
      expect(meter.ohms(p, q)).toBeCloseTo(meter.ohms(q, p), 9);
      expect(meter.ohms(p, q)).toBeLessThanOrEqual((meter.ohms(p, r) + meter.ohms(r, q)) * (1 + 1e-12));
    }),
    { seed, numRuns: runs },
  );
});

test(`more resistance anywhere never lowers a reading, whatever the circuit (${runs} circuits, seed ${seed})`, () => {
  fc.assert(
    fc.property(passive, fc.nat(7), fc.double({ min: 1, max: 1e6, noNaN: true }), (elements, at, factor) => {
      const before = network(elements)
        .ohmmeter()
        .ohms(0, nodes - 1);
      const more = elements.map((old, e): TestElement => (e === at ? [old[0], old[1], "R", old[3] * factor] : old));
      expect(
        network(more)
          .ohmmeter()
          .ohms(0, nodes - 1),
      ).toBeGreaterThanOrEqual(before * (1 - 1e-14));
    }),
    { seed, numRuns: runs },
  );
});

test(`a fault that changes nothing, and values put back, give the very same digits (${runs} circuits, seed ${seed})`, () => {
  fc.assert(
    fc.property(driven, fc.nat(7), (elements, at) => {
      const built = network(elements);
      const solver = built.ac();
      const before = solver.volts(1, 7);
      solver.re[at] = 0;
      solver.solve();
      solver.volts(1, 7);
      solver.re[at] = built.re[at];
      solver.solve();
      expect(solver.volts(1, 7)).toEqual(before);
    }),
    { seed, numRuns: runs },
  );
});

test(`partials by the adjoint equal central differences to 1e-5, AC volts and ohms (40 circuits, seed ${seed})`, () => {
  fc.assert(
    fc.property(driven, (elements) => {
      const built = network(elements);
      const solver = built.ac(strictGuard);
      const partials = solver.partials(6, 1);
      const scale = modulus(solver.volts(6, 1));
      elements.forEach(([, , kind], e) => {
        if (kind === "V") return;
        const at = { re: built.re[e], im: built.im[e] };
        const step = 1e-4 * modulus(at);
        const [up, down] = [step, -step].map((change) => {
          solver.re[e] = at.re + change;
          solver.solve();
          return solver.volts(6, 1);
        });
        solver.re[e] = at.re;
        const slope = { re: (up.re - down.re) / (2 * step), im: (up.im - down.im) / (2 * step) };
        const gap = Math.hypot(slope.re - partials.re[e], slope.im - partials.im[e]) * step;
        expect(gap).toBeLessThan(1e-5 * step * modulus(slope) + 1e-10 * scale + 1e-14);
      });
      const resistors = elements.filter(([, , kind]) => kind === "R");
      const bench = network(resistors);
      const meter = bench.ohmmeter();
      const slopes = meter.partials(6, 1);
      resistors.forEach(([, , , r], e) => {
        const [up, down] = [1 + 1e-4, 1 - 1e-4].map((factor) => {
          meter.g[e] = 1 / (r * factor);
          meter.solve();
          return meter.ohms(6, 1);
        });
        meter.g[e] = 1 / r;
        const change = up - down;
        expect(Math.abs(change - slopes[e] * r * 2e-4)).toBeLessThan(1e-5 * Math.abs(change) + 1e-12 * up);
      });
    }),
    { seed, numRuns: 40 },
  );
});

test(`a meter of R reads what a resistor R in its place drops, at DC and AC (${runs} circuits, seed ${seed})`, () => {
  fc.assert(
    fc.property(
      driven,
      fc.nat(nodes - 1),
      fc.nat(nodes - 1),
      fc.constantFrom(1e7, 4e5, 3e3),
      (elements, p, q, input) => {
        if (p === q) return;
        for (const omega of [fiftyHertz, 0]) {
          // Two coils in parallel are a loop of shorts at DC, which volts do not mind.
          const [metered, loaded] = [network(elements, omega), network([...elements, [p, q, "R", input]], omega)].map(
            (built) => (omega === 0 ? built.dc(strictGuard) : built.ac(strictGuard)),
          );
          const shown = metered.metered(p, q, input).volts;
          expect(Math.abs(shown - loaded.magnitude(p, q))).toBeLessThan(1e-9 * shown + 1e-12);
        }
      },
    ),
    { seed, numRuns: runs },
  );
});
