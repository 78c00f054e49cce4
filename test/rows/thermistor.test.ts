// A thermistor's circuit is read where it costs least, and what is good at the part but not at the board's plug is the way
// between them, not the board (trade's rows D13 and W9: read at the board's plug, joint 35 of 100; common practice).
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { planOf } from "../../src/core/ledger/index.ts";
import { workedJob } from "./jobs.ts";

const LONG = 120_000;
const BOUNDS = { pairsAtMost: 2000, candidatesAtMost: 3 };
const METER = "state: plug out, meter: handheld-6000, leads: nulled";

const told = (job: string): string =>
  readFileSync(`test/rows/${job}.yaml`, "utf8")
    .split("\n")
    .filter((line) => !/- (opened|measured):/.test(line))
    .join("\n");

const chanceOf = (parts: readonly { readonly part: string; readonly p: number }[], name: RegExp): number =>
  parts.filter(({ part }) => name.test(part)).reduce((sum, { p }) => sum + p, 0);

it.each([
  ["d13-ntc-open", "[plinth, base]"],
  ["w09-ntc", "back"],
])(
  "%s, open at the board's plug and good by itself: its connection leads, and is looked at, read or mended next",
  (job, covers) => {
    const { belief, ...rest } = workedJob(
      `${told(job)}  - opened: board\n  - isolated: two-pole tester\n  - measured: {at: X6, shows: {1-2: OL}, pulled: [X6], ${METER}}\n` +
        `  - opened: ${covers}\n  - measured: {from: ntc.a, to: ntc.b, shows: 12.1k, freed: [ntc], ${METER}}\n`,
      BOUNDS,
    );
    expect(belief.parts[0]?.part).toMatch(/^joints? (X6|ntc)/);
    expect(chanceOf(belief.parts, /^joints? /)).toBeGreaterThan(
      3 * chanceOf(belief.parts, /^(ntc-sense|logic|supply)$/),
    );
    const [first] = planOf({ belief, ...rest }, "machine").steps;
    const says = `the step was ${first?.says}`;
    if (first?.course !== undefined) expect(first.course.on, says).toMatch(/^joint/);
    else
      expect(
        first?.setUp.filter(({ do: act }) => act === "open"),
        says,
      ).toEqual([]);
  },
  LONG,
);

it.each(["d13-ntc-open", "w09-ntc"])(
  "%s, good on the wires of the board's plug: the way to the board is read at that plug next, with nothing more opened and no board fitted",
  (job) => {
    const worked = workedJob(
      `${told(job)}  - seen: {message: sensor}\n  - opened: board\n  - isolated: two-pole tester\n  - measured: {at: X6, shows: {1-2: 12.1k}, pulled: [X6], ${METER}}\n`,
      BOUNDS,
    );
    const [first] = planOf(worked, "machine").steps;
    const places = (first?.questions ?? []).flatMap(({ probe }) => [probe?.from, probe?.to]);
    expect(
      places.some((place) => place?.startsWith("X6.")),
      `the step was ${first?.says}`,
    ).toBe(true);
    expect(first?.course, `the step was ${first?.says}`).toBeUndefined();
    expect(
      first?.setUp.filter(({ do: act }) => act === "open"),
      `the step was ${first?.says}`,
    ).toEqual([]);
  },
  LONG,
);
