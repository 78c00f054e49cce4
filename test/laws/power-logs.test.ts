import { assert, constantFrom, double, integer, property, tuple } from "fast-check";
import { describe, expect, test } from "vitest";
import { seeded } from "../../src/core/chance/index.ts";
import {
  againstSheet,
  analysePower,
  expectedSteps,
  type PowerAnalysis,
  type PowerLog,
  readPowerLog,
  type StepSeen,
} from "../../src/core/powerlog/index.ts";
import { shippedMachine } from "../machines/shipped.ts";

/** So many seconds at so many watts. */
type Phase = readonly [seconds: number, watts: number];

/** A made-up log: phases one after the other, a sample every so many seconds, a flicker of a watt or so. */
function made(phases: readonly Phase[], every = 1, flicker = 1): PowerLog {
  const random = seeded("log");
  const seconds: number[] = [];
  const watts: number[] = [];
  let begin = 0;
  for (const [length, power] of phases) {
    for (let time = Math.ceil(begin / every) * every; time < begin + length; time += every) {
      seconds.push(time);
      watts.push(Math.max(0, power + flicker * (2 * random.uniform() - 1)));
    }
    begin += length;
  }
  return { seconds: Float64Array.from(seconds), watts: Float64Array.from(watts), column: "W", columns: ["W"] };
}

/** The same log with another list of rows. */
function rows(log: PowerLog, change: (rows: [number, number][]) => [number, number][]): PowerLog {
  const all = change(Array.from(log.seconds, (time, at): [number, number] => [time, log.watts[at]]));
  return {
    ...log,
    seconds: Float64Array.from(all, ([time]) => time),
    watts: Float64Array.from(all, ([, watts]) => watts),
  };
}

const WASH: readonly Phase[] = [
  [60, 0.5],
  [120, 8],
  [300, 90],
  [900, 2090],
  [600, 90],
  [60, 25],
  [300, 1],
];
const heatings = ({ stretches }: PowerAnalysis) => stretches.filter(({ load }) => load === "heater");
const events = (analysis: PowerAnalysis) =>
  analysis.stretches.map(({ load, from, to, watts }) => [load, from, to, Math.round(watts / 4)]);

describe("a made-up wash", () => {
  test("its phases are found, to the second and the watt", () => {
    const { stretches, beginsAtRest, endsAtRest, kilowattHours } = analysePower(made(WASH));
    expect(stretches.map(({ load, from, to }) => [load, from, to])).toEqual([
      ["standing by", 0, 180],
      ["motor or pump", 180, 480],
      ["heater", 480, 1380],
      ["motor or pump", 1380, 1980],
      ["small load", 1980, 2040],
      ["standing by", 2040, 2340],
    ]);
    expect(heatings({ stretches } as PowerAnalysis)[0].heating?.heaterWatts).toBeCloseTo(2000, -1);
    expect([beginsAtRest, endsAtRest]).toEqual([true, true]);
    const joules = WASH.reduce((sum, [seconds, watts]) => sum + seconds * watts, 0);
    expect(kilowattHours).toBeCloseTo(joules / 3.6e6, 3);
  });

  test("whatever its powers and lengths, on and off within two samples and watts within 2 %", () => {
    const lengths = tuple(
      integer({ min: 60, max: 900 }),
      integer({ min: 60, max: 1500 }),
      integer({ min: 60, max: 900 }),
    );
    const powers = tuple(double({ min: 60, max: 250, noNaN: true }), double({ min: 900, max: 3400, noNaN: true }));
    assert(
      property(lengths, powers, constantFrom(1, 2, 5, 6), ([before, heat, after], [motor, heater], every) => {
        const log = made(
          [
            [60, 0],
            [before, motor],
            [heat, motor + heater],
            [after, motor],
            [60, 0],
          ],
          every,
          2,
        );
        const [run, ...more] = heatings(analysePower(log));
        expect(more).toEqual([]);
        expect(Math.abs(run.from - (60 + before))).toBeLessThanOrEqual(2 * every);
        expect(Math.abs(run.to - (60 + before + heat))).toBeLessThanOrEqual(2 * every);
        expect(Math.abs(run.watts / (motor + heater) - 1)).toBeLessThan(0.02);
        expect(Math.abs((run.heating?.heaterWatts ?? 0) / heater - 1)).toBeLessThan(0.02);
      }),
      { numRuns: 150, seed: 3 },
    );
  });

  test("rows written twice, lone wild samples, and a row whose clock had gone back make no event", () => {
    const clean = events(analysePower(made(WASH)));
    assert(
      property(integer({ min: 5, max: 2330 }), constantFrom(0, 4881, 65_535, 20), (at, wild) => {
        const doubled = rows(made(WASH), (all) =>
          all.flatMap((row, index) => (index % 7 === at % 7 ? [row, row] : [row])),
        );
        expect(events(analysePower(doubled))).toEqual(clean);
        // Beside an edge a wild sample may belong to either side.
        const isInside = [60, 180, 480, 1380, 1980, 2040].every((edge) => Math.abs(at - edge) > 3);
        if (isInside) {
          const spiked = rows(made(WASH), (all) => all.with(at, [at, wild]));
          expect(events(analysePower(spiked)).map(([load, from, to]) => [load, from, to])).toEqual(
            clean.map(([load, from, to]) => [load, from, to]),
          );
        }
        const backward = rows(made(WASH), (all) => all.toSpliced(at, 0, [at - 5, 0]));
        const analysis = analysePower(backward);
        expect(analysis.backward).toBe(1);
        expect(heatings(analysis).map(({ from, to }) => [from, to])).toEqual([[480, 1380]]);
      }),
      { numRuns: 60, seed: 5 },
    );
  });

  test("a hole of 22 to 92 s in the middle of heating is unknown, and the heating goes on", () => {
    for (const hole of [22, 50, 92]) {
      const log = rows(made(WASH), (all) => all.filter(([time]) => time <= 800 || time >= 800 + hole));
      const analysis = analysePower(log);
      const [run, ...more] = heatings(analysis);
      expect(more).toEqual([]);
      expect(run).toMatchObject({ from: 480, to: 1380, unknownSeconds: hole - 1 });
    }
  });

  test("after a hole of ten minutes nobody knows whether it went on: two heatings, and what lies between is unknown", () => {
    const analysis = analysePower(rows(made(WASH), (all) => all.filter(([time]) => time < 600 || time >= 1200)));
    expect(analysis.stretches.slice(2, 5).map(({ load }) => load)).toEqual(["heater", "unknown", "heater"]);
  });

  test("an hour put back by the clock is unknown, not a second wash", () => {
    const log = rows(made(WASH), (all) => all.map(([time, watts]) => [time < 1000 ? time : time - 3600, watts]));
    const analysis = analysePower(log);
    expect(analysis.backward).toBe(1340);
    expect(heatings(analysis)).toHaveLength(1);
    expect(analysis.endsAtRest).toBe(false);
  });
});

describe("what comes and goes", () => {
  test("232 s on every 257.5 s: the period is recovered", () => {
    const bursts = Array.from({ length: 9 }, (): Phase[] => [
      [232, 2800],
      [25.5, 220],
    ]).flat();
    const { rhythm } = analysePower(made([[60, 0], [30, 220], ...bursts, [300, 220], [60, 0]], 1.5));
    expect(rhythm).toMatchObject({ load: "heater", times: 9 });
    expect(Math.abs((rhythm?.periodSeconds ?? 0) - 257.5)).toBeLessThan(0.5);
    expect(rhythm?.onSeconds).toBeCloseTo(232, -1);
  });

  test("a drum that turns 12 s and rests 5 s beside the heater: heater, motor and share are told apart", () => {
    const heat = Array.from({ length: 40 }, (): Phase[] => [
      [12, 1950 + 180],
      [5, 1950],
    ]).flat();
    const [run, ...more] = heatings(analysePower(made([[60, 0], [60, 6], ...heat, [60, 6], [60, 0]], 1, 3)));
    expect(more).toEqual([]);
    expect(run.heating?.heaterWatts).toBeCloseTo(1950, -1);
    expect(run.heating?.beside.watts).toBeCloseTo(180, -1);
    expect(run.heating?.beside.share).toBeCloseTo(12 / 17, 1);
  });

  test("a heater that drops out for eight seconds twice is one heating that drops out twice", () => {
    const log = made([
      [60, 0],
      [200, 2000],
      [8, 5],
      [200, 2000],
      [8, 5],
      [200, 2000],
      [60, 0],
    ]);
    const [run, ...more] = heatings(analysePower(log));
    expect(more).toEqual([]);
    expect(run.heating?.drops).toBe(2);
  });

  test("half the power for a while is another strength", () => {
    const { strengths } = analysePower(
      made([
        [60, 0],
        [600, 2000],
        [120, 1050],
        [300, 2000],
        [90, 1050],
        [60, 0],
      ]),
    );
    expect(strengths.map(({ watts, times }) => [Math.round(watts / 10), times])).toEqual([
      [200, 2],
      [105, 2],
    ]);
  });
});

describe("held against a sheet", () => {
  const expectedOf = (name: string) => expectedSteps(shippedMachine(name));
  const dishwasher = expectedOf("dishwasher");
  /** A good machine's log, step after step at the sheet's own watts. */
  const asExpected = (of: typeof dishwasher, change = (watts: number, _step: string) => watts): readonly Phase[] => [
    [60, 0],
    ...of.map(({ step, watts }): Phase => [300, change(watts, step)]),
    [60, 0],
  ];
  const stepsOf = (phases: readonly Phase[], volts?: number, of = dishwasher): readonly StepSeen[] => {
    const log = made(phases);
    const mains = volts === undefined ? {} : { volts: log.watts.map(() => volts) };
    return againstSheet(analysePower({ ...log, ...mains }), of, 230).steps;
  };
  const heat = (steps: readonly StepSeen[]) => steps.find(({ step }) => step === "heat");

  test.each(["dishwasher", "washing-machine", "tumble-dryer"])(
    "a good %s is as its sheet says in every step that shows",
    (name) => {
      const of = expectedOf(name);
      for (const { step, says, isOutOfOrder } of stepsOf(asExpected(of), undefined, of)) {
        expect(["as the sheet says", "not told apart"], step).toContain(says);
        expect(isOutOfOrder ?? false, step).toBe(false);
      }
    },
  );

  test("a wash without heat: heating is not seen, and no word of an open heater", () => {
    const steps = stepsOf(asExpected(dishwasher, (watts, step) => (step === "heat" ? 72 : watts)));
    expect(heat(steps)).toMatchObject({ says: "not seen" });
    expect(JSON.stringify(steps)).not.toContain("open");
  });

  test("a log that begins inside a run says so beside what was not seen", () => {
    const log = made(asExpected(dishwasher).slice(6));
    const { steps, hides } = againstSheet(analysePower(log), dishwasher, 230);
    expect(heat(steps)).toMatchObject({ says: "not seen" });
    expect(hides).toContain("begins inside a run");
  });

  test("half the heat is too little at any volts of the public supply, and said as a share", () => {
    const steps = stepsOf(asExpected(dishwasher, (watts, step) => (step === "heat" ? watts / 2 : watts)));
    expect(heat(steps)).toMatchObject({ says: "too little" });
    expect(heat(steps)?.ofSheet).toBeCloseTo(0.5, 1);
  });

  test("20 % less may be the mains where no volts were logged; at 230 V logged, a washer's narrow rating tells it", () => {
    const washer = expectedOf("washing-machine");
    const weak = asExpected(washer, (watts, step) => (step === "heat" ? 0.8 * watts : watts));
    expect(heat(stepsOf(weak, undefined, washer))).toMatchObject({ says: "as the sheet says" });
    expect(heat(stepsOf(weak, 230, washer))).toMatchObject({ says: "too little" });
    expect(heat(stepsOf(weak, 207, washer))).toMatchObject({ says: "as the sheet says" });
  });

  test("heat that comes only before the dose is seen, out of order", () => {
    const steps = asExpected(dishwasher);
    const early = [steps[0], steps[5], ...steps.slice(1, 5), ...steps.slice(6)];
    const seen = stepsOf(early);
    expect(seen.filter(({ isOutOfOrder }) => isOutOfOrder).map(({ step }) => step)).toEqual(["heat"]);
  });

  test("however long a step takes, the verdict is the same", () => {
    const short = asExpected(dishwasher).map(([seconds, watts]): Phase => [watts > 1000 ? 90 : seconds, watts]);
    expect(stepsOf(short).map(({ says }) => says)).toEqual(stepsOf(asExpected(dishwasher)).map(({ says }) => says));
  });
});

test("a log of 5 MB, four days at a sample a second, is read whole", () => {
  const head = "time,W\n";
  const line = (at: number): string => `${String(at).padStart(8, "0")},${at % 3000 < 900 ? 2040 : 60}.5\n`;
  const block = Array.from({ length: 10_000 }, (_, at) => line(at));
  const count = Math.ceil((5 << 20) / block.join("").length);
  const text =
    head +
    Array.from({ length: count }, (_, part) =>
      block.map((row) => `${String(part).padStart(4, "0")}${row.slice(4)}`).join(""),
    ).join("");
  expect(text.length).toBeGreaterThan(5 << 20);
  const log = readPowerLog(text);
  expect(log.ok && log.value.seconds.length).toBe(count * 10_000);
  expect(log.ok && heatings(analysePower(log.value)).length).toBeGreaterThan(90);
});
