import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import {
  analysePower,
  type PowerAnalysis,
  type PowerLog,
  readPowerLog,
  type Stretch,
} from "../../src/core/powerlog/index.ts";
import { openData } from "./folder.ts";

// Recorded runs of appliances (tracebase, Open Database License 1.0; the folder's NOTICE tells who and what was changed). Nothing of
// them is copied here. Their labels are a plain threshold made for these tests, not a truth: on and off within two samples, watts 2 %.
const { folder, isThere, told } = openData("traces");

interface Labelled {
  readonly on_s: number;
  readonly off_s: number;
  readonly median_W: number;
  readonly max_W?: number;
}
interface Label {
  readonly heater_on?: readonly Labelled[];
  readonly on_intervals?: readonly Labelled[];
  readonly low_power_levels?: readonly { readonly W: number; readonly s: number }[];
  readonly energy_kWh?: number;
  readonly duplicate_timestamps?: number;
}

const labels: Readonly<Record<string, Label>> = isThere
  ? JSON.parse(readFileSync(join(folder, "labels.json"), "utf8"))
  : {};

function logOf(name: string): PowerLog {
  const log = readPowerLog(readFileSync(join(folder, `${name}.csv`), "utf8"));
  if (!log.ok) throw new Error(JSON.stringify(log.issues));
  expect(log.warnings).toEqual([]);
  return log.value;
}

/** Seconds of the file at its first row; a log counts from there. */
function firstSecond(name: string): number {
  return Number(
    readFileSync(join(folder, `${name}.csv`), "utf8")
      .split("\n")[1]
      ?.split(",")[0],
  );
}

function samplesBetween(log: PowerLog, one: number, other: number): number {
  const [from, to] = [Math.min(one, other), Math.max(one, other)];
  return new Set(log.seconds.filter((time) => time > from && time <= to)).size;
}

const of = (analysis: PowerAnalysis, load: Stretch["load"]): readonly Stretch[] =>
  analysis.stretches.filter((stretch) => stretch.load === load);

describe.skipIf(!isThere)(told, () => {
  const cases = Object.entries(labels);

  test("thirteen recorded runs are labelled", () => expect(cases).toHaveLength(13));

  test.each(cases)(
    "%s: every labelled heating or running of the motor is found, on and off within two samples, watts within 2 %",
    (name, label) => {
      const log = logOf(name);
      const analysis = analysePower(log);
      const runs = of(analysis, label.heater_on === undefined && name.startsWith("fr") ? "motor or pump" : "heater");
      const wanted = label.heater_on ?? label.on_intervals ?? [];
      const start = firstSecond(name);
      for (const want of wanted) {
        const near = (run: Stretch): number => Math.abs(run.from + start - want.on_s);
        const run = runs.reduce((best, next) => (near(next) < near(best) ? next : best));
        expect(samplesBetween(log, run.from, want.on_s - start), `on at ${want.on_s}`).toBeLessThanOrEqual(2);
        expect(samplesBetween(log, run.to, want.off_s - start), `off at ${want.off_s}`).toBeLessThanOrEqual(2);
        expect(Math.abs(run.watts / want.median_W - 1), `watts at ${want.on_s}`).toBeLessThan(0.02);
      }
      // The washer-dryer's half power lies below the threshold of the labels.
      expect(runs.length).toBe(wanted.length + (name === "wd1" ? 2 : 0));
    },
  );

  test.each(cases.filter(([, label]) => label.low_power_levels !== undefined))(
    "%s: where it dwelt for two minutes at the watts of a motor or pump, so it says; kilowatt-hours within 1 %",
    (name, label) => {
      const analysis = analysePower(logOf(name));
      for (const { W, s } of label.low_power_levels ?? []) {
        if (W < 45 || s < 120) continue;
        const near = analysis.levels.find(({ watts }) => Math.abs(watts - W) <= Math.max(8, 0.08 * W));
        expect(near, `${W} W for ${s} s`).toBeDefined();
      }
      // What flowed in a hole is not known, so it is not counted.
      if (analysis.unknownSeconds < 60) {
        expect(Math.abs(analysis.kilowattHours / (label.energy_kWh ?? 0) - 1)).toBeLessThan(0.01);
      }
    },
  );

  test("a tail without heat: the log begins inside a run and no heating is seen", () => {
    const analysis = analysePower(logOf("wm6-tail-no-heat"));
    expect(analysis).toMatchObject({ beginsAtRest: false, endsAtRest: true, strengths: [] });
    expect(of(analysis, "motor or pump").length).toBeGreaterThan(1);
  });

  test("a log cut at midnight ends inside a run; a whole one begins and ends at rest", () => {
    expect(analysePower(logOf("dw4-cut-at-midnight"))).toMatchObject({ beginsAtRest: true, endsAtRest: false });
    expect(analysePower(logOf("dw4-5s"))).toMatchObject({ beginsAtRest: true, endsAtRest: true });
  });

  test("5,727 rows at a time that was there already make no event: two heatings, ten motor stretches at most", () => {
    const analysis = analysePower(logOf("dw5-dup-timestamps"));
    expect(analysis.doubled).toBe(labels["dw5-dup-timestamps"]?.duplicate_timestamps);
    expect(of(analysis, "heater")).toHaveLength(2);
    expect(of(analysis, "motor or pump").length).toBeLessThanOrEqual(10);
  });

  test("holes are unknown, and a long one ends what ran before it", () => {
    const { gaps, unknownSeconds, stretches } = analysePower(logOf("wm6-tail-no-heat"));
    expect(gaps).toHaveLength(8);
    expect(unknownSeconds).toBeGreaterThan(200);
    expect(stretches.filter(({ load }) => load === "unknown").map(({ from, to }) => Math.round(to - from))).toContain(
      91,
    );
  });

  test("one sample of 4,881 W is put aside: twelve timed bursts, 198 s from one to the next", () => {
    const analysis = analysePower(logOf("td2-with-spike"));
    expect(analysis.glitches).toContainEqual({ at: 1213, watts: 4881 });
    expect(Math.max(...analysis.stretches.map(({ watts }) => watts))).toBeLessThan(2600);
    expect(analysis.rhythm).toMatchObject({ load: "heater", times: 12 });
    expect(Math.abs((analysis.rhythm?.periodSeconds ?? 0) - 198)).toBeLessThan(2);
  });

  test("a washer-dryer heats at two strengths: about 1.9 kW and 1.05 kW", () => {
    const [full, half, ...more] = analysePower(logOf("wd1")).strengths.map(({ watts }) => watts);
    expect(full).toBeGreaterThan(1850);
    expect(full).toBeLessThan(2020);
    expect(Math.abs((half ?? 0) / 1045 - 1)).toBeLessThan(0.02);
    expect(more).toEqual([]);
  });

  test("a drum that reverses beside the heater is told apart: the element 1,962 W, the motor on six tenths of the time", () => {
    const [heating] = of(analysePower(logOf("wm1-1s")), "heater").map((stretch) => stretch.heating);
    expect(Math.abs((heating?.heaterWatts ?? 0) / 1962 - 1)).toBeLessThan(0.01);
    expect(heating?.beside.watts).toBeGreaterThan(140);
    expect(heating?.beside.watts).toBeLessThan(200);
    expect(heating?.beside.share).toBeGreaterThan(0.5);
    expect(heating?.beside.share).toBeLessThan(0.75);
  });

  test("a fridge runs 17 to 18 % of the time by the clock, and starts with a surge", () => {
    const analysis = analysePower(logOf("fr1-compressor-cycles"));
    const { onSeconds = 0, periodSeconds = 1 } = analysis.rhythm ?? {};
    expect(onSeconds / periodSeconds).toBeGreaterThan(0.17);
    expect(onSeconds / periodSeconds).toBeLessThan(0.18);
    expect(of(analysis, "motor or pump").flatMap(({ surgeWatts }) => surgeWatts ?? [])).toEqual([414, 608, 599]);
  });

  test("the same day as it was written (day first, semicolons, no names) shows the same heatings as the run cut out of it", () => {
    const day = analysePower(logOf("fullday-dishwasher-original"));
    const run = analysePower(logOf("dw4-5s"));
    const watts = (analysis: PowerAnalysis) => of(analysis, "heater").map((stretch) => stretch.watts);
    expect(watts(day)).toEqual(expect.arrayContaining(watts(run)));
    expect(day.seconds).toBeGreaterThan(86_000);
  });

  test("every sixth sample of a log at one a second moves edges by one sample at most, and the energy by 1 %", () => {
    const log = logOf("dw1-1s");
    const rows = log.seconds.map((_, at) => at).filter((at) => at % 6 === 0);
    const thin: PowerLog = {
      ...log,
      seconds: Float64Array.from(rows, (at) => log.seconds[at]),
      watts: Float64Array.from(rows, (at) => log.watts[at]),
    };
    const [full, sixth] = [analysePower(log), analysePower(thin)];
    expect(Math.abs(sixth.kilowattHours / full.kilowattHours - 1)).toBeLessThan(0.01);
    const heatings = of(full, "heater");
    expect(of(sixth, "heater")).toHaveLength(heatings.length);
    for (const [at, run] of of(sixth, "heater").entries()) {
      expect(samplesBetween(thin, run.from, heatings[at].from)).toBeLessThanOrEqual(1);
      expect(samplesBetween(thin, run.to, heatings[at].to)).toBeLessThanOrEqual(1);
    }
  });

  test.each(cases)("%s: a clock set otherwise changes nothing", (name) => {
    const log = logOf(name);
    const later = { ...log, seconds: log.seconds.map((time) => time + 4096) };
    const moved = analysePower(later).stretches.map(({ from, watts, load }) => [from - 4096, watts, load]);
    expect(moved).toEqual(analysePower(log).stretches.map(({ from, watts, load }) => [from, watts, load]));
  });

  test.each(cases.filter(([, label]) => (label.heater_on?.length ?? 0) > 0))(
    "%s: at 240 V instead of 230 V heatings begin and end as before, by the square of the volts stronger",
    (name) => {
      const square = (240 / 230) ** 2;
      const log = logOf(name);
      const usual = analysePower(log);
      const stronger = analysePower({
        ...log,
        watts: log.watts.map((watts) => (watts >= 700 ? watts * square : watts)),
      });
      const heatings = of(usual, "heater");
      expect(of(stronger, "heater").map(({ from, to }) => [from, to])).toEqual(
        heatings.map(({ from, to }) => [from, to]),
      );
      for (const [at, { watts }] of of(stronger, "heater").entries())
        expect(watts).toBeCloseTo(heatings[at].watts * square, 6);
      expect(stronger.levels).toEqual(usual.levels);
    },
  );
});
