import { describe, expect, test } from "vitest";
import {
  accessGroup,
  HAND_SHOP,
  handCause,
  handMachine,
  handPlug,
  handPoint,
} from "../../../test/machines/hand-case.ts";
import type { Meter } from "../meter/index.ts";
import type { Machine, SignRule } from "../sheet/index.ts";
import { foldJob } from "./fold-job.ts";
import { knownAnswers, knownDifferences } from "./known.ts";
import { readJob } from "./read-job.ts";

const odds = { hit: 0.9, falseAlarm: 0.1 };
const heat: SignRule = {
  id: "heat",
  ask: "How warm?",
  answers: ["cold", "hot"],
  rule: { kind: "levels", tests: [] },
  told: odds,
  heard: odds,
  seen: odds,
};
const handheld: Meter = {
  id: "handheld",
  says: "handheld meter",
  ranges: [
    { quantity: "ohms", top: 6e7, resolution: 0.1, shareOfReading: 0.01, counts: 3 },
    { quantity: "volts", top: 1000, resolution: 0.1, shareOfReading: 0.01, counts: 3 },
  ],
  inputOhms: 1e7,
  leadOhms: { lo: 0.1, hi: 0.3 },
  nulledOhms: 0.05,
  source: "invented",
};
const METERS = new Map([["handheld", handheld]]);

const machine: Machine = handMachine(
  [
    { id: "heater", access: "back" },
    { id: "one-shot", access: "back", victim: true },
  ],
  {
    choice: new Map([["stages", "two"]]),
    access: [accessGroup("top", 4), accessGroup("back", 10, { position: "pulled out", after: "top" })],
    points: [handPoint("X3.1", 0), handPoint("X3.2", 1), handPoint("X3.3", 2)],
    plugs: [handPlug("X3", [0, 1, 2], "top")],
    signs: [heat],
    causes: [handCause("lint")],
    steps: [{ id: "heat", drives: [], entersIf: [], needs: [], timeOuts: [] }],
    variables: [{ id: "door", role: "input", initial: 1 }],
  },
);

function fold(events: string, head = "") {
  const text = `format: faultwright-job/1\njob: 1\nsheet: dryer\n${head}events:\n${events}`;
  const read = readJob(text, "job.yaml");
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return foldJob(read.value, [machine], HAND_SHOP, METERS, "job.yaml");
}

function state(events: string) {
  const folded = fold(events);
  if (!folded.ok) throw new Error(JSON.stringify(folded.issues));
  return folded.value;
}

describe("the events of a job", () => {
  test("become observations in order, each with its event", () => {
    const { observations } = state(
      "  - told: {heat: cold}\n  - looked: {at: heater, found: good}\n  - measured: {from: X3.1, to: X3.3, shows: 26.4}\n",
    );
    expect(observations.map((noted) => `${noted.event} ${noted.observation.kind}`)).toEqual([
      "e1 sign",
      "e2 look",
      "e3 reading",
    ]);
    const reading = observations[2]?.observation;
    expect(reading?.kind === "reading" && reading.meter.id).toBe("handheld");
    expect(reading?.kind === "reading" && reading.leads).toBe("not nulled");
  });

  test("open covers with those before them, move the machine, and cost 12 minutes before a reading of 1", () => {
    const { work } = state("  - opened: back\n  - measured: {from: X3.1, to: X3.3, shows: 26.4}\n");
    expect([...work.open]).toEqual(["top", "back"]);
    expect(work.position).toBe("pulled out");
    // Two and five minutes to open, half a minute to take the meter, half to read.
    expect(work.minutes).toBeCloseTo(2 + 5 + 0.5 + 0.5, 9);
    expect(work.instrument).toBe("handheld/ohms");
  });

  test("close what lies behind a cover with it", () => {
    expect([...state("  - opened: back\n  - closed: top\n").work.open]).toEqual([]);
  });

  test("the plug out proves nothing dead; a cover opened after it and the proof do", () => {
    const out = state("  - unplugged\n").work;
    expect([out.energy, out.provedDead]).toEqual(["plug out", false]);
    const dead = state("  - unplugged: yes\n  - opened: top\n  - isolated\n").work;
    expect([dead.energy, dead.provedDead]).toEqual(["plug out", true]);
    const still = state("  - isolated\n  - unplugged\n").work;
    expect([still.energy, still.provedDead]).toEqual(["plug out", true]);
  });

  test("are live until isolated, and live again with the next energising: a proof of being dead does not last", () => {
    expect(state("  - told: {heat: cold}\n").work.energy).toBe("live");
    const dead = state("  - isolated: two-pole tester\n").work;
    expect([dead.energy, dead.provedDead]).toEqual(["plug out", true]);
    const again = state("  - isolated\n  - measured: {volts: 230, from: X3.1, to: X3.3, in: heat}\n").work;
    expect([again.energy, again.provedDead]).toEqual(["live", false]);
    const back = state("  - isolated\n  - energised\n  - measured: {from: X3.1, to: X3.3, shows: OL}\n").work;
    expect([back.energy, back.provedDead]).toEqual(["plug out", false]);
  });

  test("that are withdrawn leave no trace, and the job goes on with 1 of 2 observations", () => {
    const { observations, withdrawn } = state(
      "  - told: {heat: cold}\n  - seen: {heat: hot}\n  - withdraws: {event: 1}\n",
    );
    expect(observations.map((noted) => noted.event)).toEqual(["e2"]);
    expect([...withdrawn]).toEqual(["e1"]);
  });

  test("after a repair speak of the new part: it is marked where the old readings end, and when it was looked at", () => {
    const before = "  - measured: {from: X3.1, to: X3.3, shows: OL}\n  - did: {remedy: new, on: heater, price: 85}\n";
    const undone = state(before);
    expect(undone.repairs).toMatchObject([{ on: "heater", after: 1, looked: false }]);
    expect(undone.repairs[0]?.path).toHaveLength(1);
    expect(undone.work.spent).toBe(85);
    expect([...undone.work.probes]).toEqual([]);
    const looked = state(`${before}  - measured: {from: X3.1, to: X3.3, shows: 26}\n`);
    expect(looked.repairs[0]?.looked).toBe(true);
  });

  test("that were counted keep their 19 good of 20", () => {
    const { observations } = state("  - counted: {from: X3.1, to: X3.2, good: 19, of: 20}\n");
    expect(observations[0]?.observation).toMatchObject({ kind: "count", good: 19, of: 20 });
  });

  test("with times count the minutes that were written", () => {
    expect(
      state("  - told: {heat: cold}\n    at: 14:00\n  - looked: {at: lint, found: bad}\n    at: 14:31\n").work.minutes,
    ).toBe(31);
  });

  test("answered slots go to the case, the last word counts, and the plate is a difference", () => {
    const text = `format: faultwright-job/1\njob: 1\nsheet: dryer\nmachine: {answers: {stages: one}, differs: [cut-out absent], plate: {heater.P: 2400 W}}\nevents:\n  - answered: {stages: two}\n`;
    const read = readJob(text);
    expect(read.ok && [...knownAnswers(read.value)]).toEqual([["stages", "two"]]);
    expect(read.ok && knownDifferences(read.value)).toEqual(["cut-out absent", "heater.P is 2400 W"]);
  });

  test("with 8 names that the sheet does not know are all told at once, with their lines and what was meant", () => {
    const folded = fold(`  - told: {heet: cold}
  - told: {heat: lukewarm}
  - looked: {at: heatr, found: bad}
  - opened: bak
  - measured: {from: X3.1, to: X3.9, shows: 26}
  - measured: {from: X3.1, to: X3.2, shows: 26, meter: handheeld, hands: {dor: 1}}
  - measured: {cause: lindt, what: load rise, shows: 12}
  - withdraws: 12
`);
    expect(folded.ok).toBe(false);
    if (folded.ok) return;
    expect(folded.issues.map((issue) => `${issue.line} ${issue.code} ${issue.hint ?? "-"}`)).toEqual([
      "5 job.unknown-sign Did you mean heat?",
      "6 job.unknown-answer There are: cold · hot · sometimes.",
      "7 job.unknown-part Did you mean heater?",
      "8 job.unknown-access Did you mean back?",
      "9 job.unknown-point X3 has X3.1 · X3.2 · X3.3.",
      "10 job.unknown-input Did you mean door?",
      "10 job.unknown-meter Did you mean handheld?",
      "11 job.unknown-cause Did you mean lint?",
      "12 job.withdraws -",
    ]);
    expect(folded.issues.every((issue) => issue.file === "job.yaml")).toBe(true);
  });
});
