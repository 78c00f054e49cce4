import { describe, expect, test } from "vitest";
import { HAND_SHOP } from "../../../test/machines/hand-case.ts";
import { plainMode, tableForesight } from "../../../test/machines/table-foresight.ts";
import { caseFrom } from "../suspect/index.ts";
import { believeJob } from "./believe-job.ts";
import { foldJob, type JobState } from "./fold-job.ts";
import { KeptRepairs } from "./kept-repairs.ts";
import { readJob } from "./read-job.ts";

const looks = { looks: "burnt", seen: { hit: 0.9, falseAlarm: 0.02 } };
const foresight = tableForesight({ modes: [plainMode(0, "heater", looks), plainMode(1, "motor", looks)] });

function stateOf(...events: readonly string[]): JobState {
  const lines = events.map((event) => `  - ${event}`).join("\n");
  const read = readJob(`format: faultwright-job/1\njob: 1\nsheet: dryer\nevents:\n${lines}`);
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  const folded = foldJob(read.value, [foresight.machine], HAND_SHOP, new Map());
  if (!folded.ok) throw new Error(JSON.stringify(folded.issues));
  return folded.value;
}

const BAD = "looked: {at: heater, found: bad}";
const MENDED = 'did: {remedy: new, on: heater, worked: "yes"}';
const opened = caseFrom([{ foresight, weight: 1 }]);

describe("a job believed again as its events come", () => {
  test("is believed as if it were new, whatever was added, taken back or repaired in between", () => {
    const kept = new KeptRepairs();
    for (const events of [
      [BAD],
      [BAD, MENDED],
      [BAD, MENDED, "note: it works"],
      [BAD, MENDED, "looked: {at: motor, found: bad}"],
      [BAD, "did: {remedy: new, on: heater}"],
      ["looked: {at: heater, found: good}", MENDED],
      [BAD, MENDED, "looked: {at: motor, found: bad}", "did: {remedy: new, on: motor}"],
      [BAD, MENDED],
    ]) {
      const state = stateOf(...events);
      const { belief, observations } = kept.believe(opened, state, HAND_SHOP);
      const anew = believeJob(opened, state, HAND_SHOP);
      expect(belief.logPosterior).toEqual(anew.belief.logPosterior);
      expect(observations).toEqual(anew.observations);
    }
  });

  test("keeps its case as long as nothing before the last repair changes", () => {
    const kept = new KeptRepairs();
    const first = kept.believe(opened, stateOf(BAD, MENDED), HAND_SHOP);
    expect(kept.believe(opened, stateOf("note: seen", BAD, MENDED, "note: it works"), HAND_SHOP).case).toBe(first.case);
    expect(kept.believe(opened, stateOf(BAD, BAD, MENDED), HAND_SHOP).case).not.toBe(first.case);
  });
});
