import fc from "fast-check";
import { expect, test } from "vitest";
import { modesOf } from "../../src/core/fault/index.ts";
import { DeadBench, openRunner } from "../../src/core/run/index.ts";
import { shippedMachine } from "../machines/shipped.ts";

// What each part's tolerance does to a reading, by one adjoint solve, against changing the part itself and reading again.

const seed = 23;
const runs = 60;
const machine = shippedMachine("tumble-dryer");
const point = fc.constantFrom(...machine.points.map(({ node }) => node));
const fault = fc.constantFrom([], ...modesOf(machine).map(({ severities }) => severities[0].effects));
/** Relative change of a part. */
const step = 1e-3;

test(`slopes of volts while heating, over any fault and any two points of the dryer, are those of reading again, to 1e-4 (${runs} draws, seed ${seed})`, () => {
  let compared = 0;
  fc.assert(
    fc.property(fault, point, point, (effects, from, to) => {
      const runner = openRunnerOnce();
      const [member] = runner.run(effects).pictures.get("heat@minutes")?.members ?? [];
      const { ac } = runner.restore(effects, member, "heat@minutes");
      const slopes = ac.partials(from, to);
      const [re, im] = [slopes.re.slice(), slopes.im.slice()];
      const moving = largest(re.map((slope, e) => Math.hypot(slope, im[e]) * size(ac, e)));
      for (const e of moving) {
        const own = ac.re[e];
        const by = step * size(ac, e);
        const [up, down] = [by, -by].map((change) => {
          ac.re[e] = own + change;
          ac.solve();
          return ac.volts(from, to);
        });
        ac.re[e] = own;
        ac.solve();
        const gap = Math.hypot(up.re - down.re - 2 * by * re[e], up.im - down.im - 2 * by * im[e]);
        const moved = Math.hypot(up.re - down.re, up.im - down.im);
        expect(gap, machine.elements[e]?.id).toBeLessThan(1e-4 * moved + 1e-8);
        if (moved > 1e-3) compared++;
      }
    }),
    { seed, numRuns: runs },
  );
  expect(compared).toBeGreaterThan(runs);
});

test(`slopes of ohms with the plug out, over any fault and any two points of the dryer, are those of reading again, to 1e-4 (${runs} draws, seed ${seed})`, () => {
  const bench = new DeadBench(machine);
  let compared = 0;
  fc.assert(
    fc.property(fault, point, point, (effects, from, to) => {
      const meter = bench.prepare(effects, { pulled: [], freed: [], hands: new Map() });
      if (!Number.isFinite(meter.ohms(from, to))) return;
      const slopes = meter.partials(from, to).slice();
      for (const e of largest(slopes.map((slope, i) => (slope === 0 ? 0 : Math.abs(slope) / meter.g[i])))) {
        const own = meter.g[e];
        const [up, down] = [1 + step, 1 - step].map((factor) => {
          meter.g[e] = own / factor;
          meter.solve();
          return meter.ohms(from, to);
        });
        meter.g[e] = own;
        meter.solve();
        const moved = up - down;
        expect(Math.abs(moved - (slopes[e] / own) * 2 * step)).toBeLessThan(1e-4 * Math.abs(moved) + 1e-11 * up);
        compared++;
      }
    }),
    { seed, numRuns: runs },
  );
  expect(compared).toBeGreaterThan(runs);
});

let opened: ReturnType<typeof openRunner> | undefined;

function openRunnerOnce(): ReturnType<typeof openRunner> {
  opened ??= openRunner(machine);
  return opened;
}

function size({ re, im }: { readonly re: Float64Array; readonly im: Float64Array }, element: number): number {
  const siemens = Math.hypot(re[element], im[element]);
  return Number.isFinite(siemens) ? siemens : 0;
}

/** The six elements that move a reading most. */
function largest(moves: Float64Array): number[] {
  return [...moves.keys()]
    .filter((e) => moves[e] > 0 && Number.isFinite(moves[e]))
    .sort((a, b) => moves[b] - moves[a])
    .slice(0, 6);
}
