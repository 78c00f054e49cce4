import { describe, expect, test } from "vitest";
import { HAND_SHOP } from "../../../test/machines/hand-case.ts";
import { plainMode, tableForesight } from "../../../test/machines/table-foresight.ts";
import type { Observation } from "../sign/index.ts";
import { caseFrom } from "../suspect/index.ts";
import { believeJob } from "./believe-job.ts";
import { foldJob } from "./fold-job.ts";
import { readJob } from "./read-job.ts";

/** Heater and motor; a look tells each. */
const looks = { looks: "burnt", seen: { hit: 0.9, falseAlarm: 0.02 } };
const foresight = tableForesight({ modes: [plainMode(0, "heater", looks), plainMode(1, "motor", looks)] });

function believed(events: string) {
  const opened = caseFrom([{ foresight, weight: 1 }]);
  const read = readJob(`format: faultwright-job/1\njob: 1\nsheet: dryer\nevents:\n${events}`);
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  const folded = foldJob(read.value, [foresight.machine], HAND_SHOP, new Map());
  if (!folded.ok) throw new Error(JSON.stringify(folded.issues));
  return believeJob(opened, folded.value, HAND_SHOP);
}

const oddsOf = (events: string, part: string): number =>
  believed(events).belief.parts.find((one) => one.part === part)?.p ?? 0;

const SEEN = "  - looked: {at: heater, found: bad}\n  - looked: {at: motor, found: good}\n";

describe("a job over its repairs", () => {
  test("without a repair is the case with all its 2 observations", () => {
    const { observations } = believed(SEEN);
    expect(observations).toHaveLength(2);
    expect(oddsOf(SEEN, "heater")).toBeGreaterThan(0.9);
  });

  test("with the heater mended speaks of the new heater: under 1 in 5, and no old observation is counted again", () => {
    const after = `${SEEN}  - did: {remedy: new, on: heater}\n`;
    expect(believed(after).observations).toEqual<readonly Observation[]>([]);
    expect(oddsOf(after, "heater")).toBeLessThan(0.2);
  });

  test("believes the technician: said to have failed, the heater stays suspected; said to have worked, hardly", () => {
    const failed = oddsOf(`${SEEN}  - did: {remedy: new, on: heater, worked: "no"}\n`, "heater");
    const worked = oddsOf(`${SEEN}  - did: {remedy: new, on: heater, worked: "yes"}\n`, "heater");
    expect(failed).toBeGreaterThan(0.85);
    expect(worked).toBeLessThan(0.06);
  });

  test("with the wrong part mended leaves the heater as suspected as it was, to 1 in 50", () => {
    const before = oddsOf(SEEN, "heater");
    expect(Math.abs(oddsOf(`${SEEN}  - did: {remedy: new, on: motor}\n`, "heater") - before)).toBeLessThan(0.02);
  });
});
