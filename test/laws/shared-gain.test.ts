// All readings of one meter share its gain error, yet the odds take each reading's error as its own. Here both are worked
// out: the odds as they are, and averaged over the meter's gain by quadrature, each time with a meter that has none left.
import { expect, test } from "vitest";
import { gaussLegendre } from "../../src/core/chance/index.ts";
import type { Meter } from "../../src/core/meter/index.ts";
import { probeOf } from "../../src/core/predict/index.ts";
import type { Observation } from "../../src/core/sign/index.ts";
import type { ForeseenCase } from "../../src/core/suspect/index.ts";
import { handheld, shippedCase } from "../machines/shipped-case.ts";

const meter = handheld();
const share = Math.max(
  ...meter.ranges.filter(({ quantity }) => quantity === "ohms").map(({ shareOfReading }) => shareOfReading),
);
const noGain: Meter = { ...meter, ranges: meter.ranges.map((range) => ({ ...range, shareOfReading: 0 })) };

type Read = readonly [from: string, to: string, ohms: number];

function seen(reads: readonly Read[], by: Meter, gain: number): readonly Observation[] {
  return reads.map(([from, to, ohms]) => ({
    kind: "reading",
    probe: probeOf({ quantity: "ohms", from, to, state: { kind: "dead", pulled: [], freed: [], hands: new Map() } }),
    meter: by,
    leads: "nulled",
    shown: { kind: "value", value: ohms / (1 + gain) },
  }));
}

/** Most that the odds of any way to fail differ. */
function worstGap(the: ForeseenCase, told: readonly Observation[], reads: readonly Read[]): number {
  const apart = the.update([...told, ...seen(reads, meter, 0)]);
  const { points, weights } = gaussLegendre(15);
  const each = points.map((x, i) => {
    const belief = the.update([...told, ...seen(reads, noGain, share * (2 * x - 1))]);
    return { belief, weight: weights[i] * Math.exp(belief.logEvidence) };
  });
  const whole = each.reduce((sum, { weight }) => sum + weight, 0);
  const shared = new Map<string, number>();
  for (const { belief, weight } of each) {
    for (const { mode, p } of belief.modes) shared.set(mode, (shared.get(mode) ?? 0) + (p * weight) / whole);
  }
  return Math.max(...apart.modes.map(({ mode, p }) => Math.abs(p - (shared.get(mode) ?? 0))));
}

const dryer = {
  air: "vented",
  protectors: "self-resetting and one-shot",
  "motor-watch": "drum sensor on the board",
  control: "board with one heater pole",
  moisture: "none",
};
const cold: readonly Observation[] = [
  { kind: "sign", sign: "drum turns", answer: "yes", witness: "told" },
  { kind: "sign", sign: "heat", answer: "cold", witness: "told" },
];
const oneStage = shippedCase("tumble-dryer", { ...dryer, stages: "one" }, { pairsAtMost: 300 });
const twoStages = shippedCase("tumble-dryer", { ...dryer, stages: "two" }, { pairsAtMost: 300 });
const washer = shippedCase(
  "washing-machine",
  { motor: "three phases and a module", lock: "bimetal", level: "sealed sensor", "heater-fuses": "none" },
  { pairsAtMost: 300 },
);

const BOUND = 0.001;

test.each<readonly [string, ForeseenCase, readonly Observation[], readonly Read[]]>([
  ["three phases alike", washer, [], phases(7.2, 7.2, 7.2)],
  ["three phases, one a little low", washer, [], phases(7.2, 7.1, 6.9)],
  ["three phases, one a tenth low", washer, [], phases(7.2, 6.4, 6.8)],
  ["two stages of a heater alike", twoStages, cold, stages(43.5, 43.5)],
  ["two stages, one a twentieth high", twoStages, cold, stages(43.5, 45.8)],
  ["two stages, one at the edge of its print", twoStages, cold, stages(48.9, 43.2)],
  ["two windings of a motor", oneStage, [], windings(21.4, 22.9)],
  ["two windings, one a tenth low", oneStage, [], windings(21.4, 19.3)],
])(`%s: sharing the gain moves no odds by more than ${BOUND}`, (_, the, told, reads) => {
  const [foresight] = the.foresights;
  for (const observation of seen(reads, meter, 0)) {
    if (observation.kind === "reading") expect(foresight.has(observation.probe), observation.probe.id).toBe(true);
  }
  expect(worstGap(the, told, reads)).toBeLessThan(BOUND);
});

function phases(uv: number, vw: number, uw: number): readonly Read[] {
  return [
    ["motor.u", "motor.v", uv],
    ["motor.v", "motor.w", vw],
    ["motor.u", "motor.w", uw],
  ];
}

function stages(first: number, second: number): readonly Read[] {
  return [
    ["heater.s1", "heater.common", first],
    ["heater.s2", "heater.common", second],
  ];
}

function windings(main: number, aux: number): readonly Read[] {
  return [
    ["motor.main", "motor.common", main],
    ["motor.aux", "motor.common", aux],
  ];
}
