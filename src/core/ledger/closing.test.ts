import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readShipped } from "../../../test/rows/dryer.ts";
import { meters, must, shop } from "../../../test/rows/jobs.ts";
import { readSafetyRules } from "../safety/index.ts";
import { closeOutOf } from "./close-out.ts";
import { type Closing, closingOf } from "./closing.ts";
import { KeptRepairs } from "./kept-repairs.ts";
import { readJob } from "./read-job.ts";
import { openedCase, type WorkedJob, workOut } from "./work-out.ts";
import { writtenEvents } from "./written-event.ts";

const text = readFileSync(new URL("../../../examples/closed/dryer-mended.yaml", import.meta.url), "utf8");
const ground = { ...readShipped("tumble-dryer"), shop, meters };
const rules = must(readSafetyRules(readFileSync("data/safety/uk-4.yaml", "utf8"), "uk-4.yaml"));

const opened = openedCase(must(readJob(text)), ground);
const kept = new KeptRepairs();
const folded = (job: WorkedJob): Closing => closingOf(job, (id) => (id === "uk-4" ? rules : undefined));

/** The machine is the same in every job here: its case is opened once, and carried over its repairs once. */
function worked(...more: readonly string[]): WorkedJob {
  return must(
    workOut(
      must(readJob([text.trimEnd(), ...more.map((event) => `  - ${event}`)].join("\n"))),
      ground,
      undefined,
      () => opened,
      (...job) => kept.believe(...job),
    ),
  );
}

function reasonsOf(job: WorkedJob): readonly string[] {
  return closeOutOf(job, folded(job), rules).gate.reasons.map((reason) => Object.values(reason).join(": "));
}

describe("a dryer mended, tested and put together", () => {
  const closing: Closing = folded(worked());

  test("its put-back list made itself from what was opened and pulled, and all of it is back", () => {
    expect(closing.putBack.length).toBeGreaterThan(3);
    expect(closing.putBack.map(({ says }) => says)).toContain("connector X3 pushed home");
    expect(closing.putBack.every(({ isBack }) => isBack)).toBe(true);
  });

  test("it may be closed: tests passed, checks made, the reason known", () => {
    const { gate, verdict } = closeOutOf(worked(), closing, rules);
    expect(verdict?.says).toBe("pass");
    expect(gate).toEqual({ isOpen: true, reasons: [] });
  });

  test("what only the customer can prove stands beside what was proved", () => {
    expect(closing.proved).toMatchObject([{ kind: "operated", good: 4, of: 4, proof: { says: "go on" } }]);
    expect(closing.unproved).toMatchObject([{ asked: "picture", days: 3 }]);
  });
});

describe("what shuts the door again", () => {
  test("a repair after the tests: nothing that was tested before it counts", () => {
    const job = worked("did: {remedy: fit a new heater, on: heater, worked: 'yes'}");
    expect(folded(job).safety?.findings).toEqual({ readings: {}, cannot: [] });
    expect(reasonsOf(job)).toContain("tests not finished: look");
  });

  test("a cover opened after the tests: it is owed again, and the row begins anew", () => {
    const job = worked("opened: back");
    expect(reasonsOf(job).filter((reason) => reason.startsWith("not put back")).length).toBeGreaterThan(0);
    expect(reasonsOf(job)).toContain("tests not finished: look");
  });

  test("a failed test, and not even a good one after it opens the door", () => {
    const job = worked(
      "tested: {test: look, found: pass}",
      "tested: {test: earth, shows: 0.9 ±0.01}",
      "tested: {test: insulation, shows: '> 20 MΩ'}",
    );
    expect(reasonsOf(job)).toEqual(["test failed: earth"]);
  });

  test("something that was bridged, and a protector that opened for a reason nobody knows", () => {
    expect(reasonsOf(worked("checked: {nothing bridged: 'no'}"))).toEqual(["check failed: nothing bridged"]);
    const why = String(
      text.split("\n").findIndex((line) => line.includes("- why:")) - text.split("\n").indexOf("events:"),
    );
    expect(reasonsOf(worked(`withdraws: ${why}`)).join()).toContain("why did it open: one-shot");
  });

  test("what was amiss and has not been seen right since, and a repair that is said to have failed", () => {
    expect(
      reasonsOf(worked("measured: {from: X3.1, to: X3.3, shows: OL, state: plug out, pulled: [X3], leads: nulled}")),
    ).toContain("not seen right: X3.1 to X3.3");
    const failed = worked("did: {remedy: fit a new heater, on: heater, worked: 'no'}");
    expect(reasonsOf(failed)).toContain("nothing mended");
  });

  test("operations that failed too often after it", () => {
    expect(reasonsOf(worked("operated: {on: cut-out, good: 2, of: 6}"))).toEqual(["disproved: self-resetting cut-out"]);
  });

  test("nothing at all known of the tests", () => {
    const job = worked();
    expect(closeOutOf(job, folded(job), undefined).gate.reasons).toEqual([{ is: "tests not begun" }]);
  });
});

describe("energised after the repair before look, earth and insulation", () => {
  const look = "tested: {test: look, found: pass}";
  const earth = "tested: {test: earth, shows: 0.08 ±0.01}";
  const insulation = "tested: {test: insulation, shows: '> 20 MΩ'}";
  const repair = "did: {remedy: fit a new heater, on: heater}";

  test("before any repair it is no matter, and after the three tests it is right", () => {
    expect(folded(worked())).toMatchObject({ owesNewTests: false, mayEnergise: true });
    const right = folded(worked(repair, look, earth, insulation, "energised: RCD lead"));
    expect(right).toMatchObject({ owesNewTests: false, mayEnergise: true });
    for (const { energisedEarly } of [folded(worked()), right]) expect(energisedEarly).toBeUndefined();
  });

  test.each(["energised: RCD lead", "seen: {heat: hot}"])(
    "%s shuts the door until the tests are begun anew",
    (power) => {
      const early = worked(repair, look, power, earth, insulation);
      expect(folded(early)).toMatchObject({ energisedEarly: "before the tests", owesNewTests: true });
      expect(reasonsOf(early)).toContain("energised early");
    },
  );

  test.each([
    ["look", "tested: {test: look, found: fail}"],
    ["earth", look, "tested: {test: earth, shows: 0.9 ±0.01}"],
    ["insulation", look, earth, "tested: {test: insulation, shows: 0.05 MΩ ±10%}"],
  ])("a failed %s, and energised all the same: the door stays shut, and the record names it", (_test, ...tests) => {
    const failed = worked(repair, ...tests);
    expect(folded(failed)).toMatchObject({ mayEnergise: false, owesNewTests: false });
    const energised = worked(repair, ...tests, "energised: RCD lead");
    expect(folded(energised)).toMatchObject({ energisedEarly: "after a failed test", owesNewTests: true });
    expect(reasonsOf(energised)).toContain("energised early");
    const anew = worked(repair, ...tests, "energised: RCD lead", look, earth, insulation, "energised: RCD lead");
    expect(folded(anew)).toMatchObject({ energisedEarly: "after a failed test", owesNewTests: false });
  });

  test("too close to say is not passed; a function that fails lets it be looked into", () => {
    const close = worked(repair, look, earth, "tested: {test: insulation, shows: 0.32 MΩ ±20%}", "energised: RCD lead");
    expect(folded(close)).toMatchObject({ energisedEarly: "before the tests", mayEnergise: false });
    const fails = worked(
      repair,
      look,
      earth,
      insulation,
      "tested: {test: function, found: fail}",
      "seen: {heat: cold}",
    );
    expect(folded(fails)).toMatchObject({ owesNewTests: false, mayEnergise: true });
  });

  test("by rules that nobody knows here a metered test counts once it is taken, and a failed look does not pass", () => {
    const blind = (...tests: string[]) => closingOf(worked(repair, ...tests), () => undefined).mayEnergise;
    expect([blind(look, earth), blind(look, earth, insulation)]).toEqual([false, true]);
    expect(blind("tested: {test: look, found: fail}", earth, insulation)).toBe(false);
  });

  test("tests begun anew open it again, and the record names it all the same", () => {
    const anew = worked(repair, "energised: RCD lead", look, earth, insulation);
    expect(folded(anew)).toMatchObject({ energisedEarly: "before the tests", owesNewTests: false });
    expect(reasonsOf(anew)).not.toContain("energised early");
    const next = worked(repair, "energised: RCD lead", look, earth, insulation, "did: {remedy: new, on: lint}");
    expect(folded(next).energisedEarly).toBeUndefined();
  });
});

test("operations of one part written down one by one are one proof; a repair takes them away", () => {
  const one = "operated: {on: heater, good: 1, of: 1, minutes: 0.5}";
  const heater = (job: WorkedJob) => folded(job).proved.find(({ on }) => on === "heater");
  expect(heater(worked(one, one, "operated: {on: heater, good: 0, of: 1}"))).toMatchObject({
    good: 2,
    of: 3,
    minutesEach: 0.5,
    proof: { says: "go on" },
  });
  expect(heater(worked(...Array.from({ length: 14 }, () => one)))).toMatchObject({ of: 14, proof: { says: "enough" } });
  expect(heater(worked(one, "did: {remedy: fit a new heater, on: heater}"))).toBeUndefined();
});

test("a log that heats too little after the repair shuts the door; a new repair takes it away", () => {
  const log = (says: string) =>
    `logged: {file: run.csv, seconds: 5400, kilowatt hours: 1.4, runs: [{load: heater, from: 60, to: 1200, watts: 990}], steps: [{step: heat, says: ${says}, watts: 990}], hides: [holes]}`;
  expect(reasonsOf(worked(log("too little")))).toEqual(["disproved: log of the power at the plug"]);
  expect(reasonsOf(worked(log("not seen")))).toEqual([]);
  const again = worked(log("too little"), "did: {remedy: fit a new heater, on: heater}");
  expect(folded(again).proved.map(({ kind }) => kind)).not.toContain("logged");
});

test("a reading with no ± of its own takes that of the meter it names, and none without one", () => {
  const readingOf = (event: string) =>
    folded(worked("tested: {test: look, found: pass}", event)).safety?.findings.readings;
  const named = readingOf("tested: {test: insulation, shows: 5 MΩ, meter: insulation-tester}")?.insulation;
  const bare = readingOf("tested: {test: insulation, shows: 5 MΩ}")?.insulation;
  const spread = (one: typeof named): number =>
    one === undefined || "above" in one ? Number.NaN : Math.hypot(...one.value.parts.values());
  // 3 % + 3 counts of 10 kΩ, over √3
  expect(spread(named)).toBeCloseTo((0.03 * 5e6 + 30e3) / Math.sqrt(3), -2);
  expect(spread(bare)).toBe(0);
});

test("every event between repair and door is read back as it was written", () => {
  const more = [
    "heated: {litres: 4 L ±10%, from: 15 ±1, to: 60 ±1, time: 9.5 min ±5 s, watts: 2000, volts: 228 ±2, load: 3..4 kg, tub: 6 kg +1-2}",
    "loaded: {on: cut-out, drop: 120 mV ±2 mV, amperes: 9 A ±0.2 A}",
    "tested: {test: insulation, cannot: it has no metal}",
    "left: {waiting for: a heater, made safe: [plug out, label on the plug]}",
    "notice: {found: [case live], done: [cord cut off the supply], ended: signed, to: the tenant, signature: abc123}",
    "logged: {file: run.csv, seconds: 5400, kilowatt hours: 1.4, volts: 229, runs: [{load: heater, from: 60, to: 1200, watts: 990}], steps: [{step: heat, says: as the sheet says, watts: 990}, {step: spin, says: not seen}], hides: [holes, ends inside a run]}",
  ];
  const { job } = worked(...more);
  const bodies = job.events.flatMap((event) => writtenEvents(event).map(({ kind, body }) => ({ [kind]: body })));
  const again = must(readJob(JSON.stringify({ format: "faultwright-job/1", job: "x", sheet: "y", events: bodies })));
  const closingOnly = (events: typeof job.events) =>
    events
      .filter(({ kind }) =>
        /heated|loaded|logged|operated|tested|safety|ticked|checked|unproved|left|notice/.test(kind),
      )
      .map(({ id: _id, line: _line, ...body }) => body);
  expect(JSON.stringify(closingOnly(again.events).map(plainly))).toBe(
    JSON.stringify(closingOnly(job.events).map(plainly)),
  );
});

/** Rounded to nine figures, units left out: a written amount is in base units. */
function plainly(value: unknown): unknown {
  return JSON.parse(
    JSON.stringify(value, (key, one: unknown) => {
      if (key === "unit") return undefined;
      if (one instanceof Map) return [...one];
      return typeof one === "number" ? Number(one.toPrecision(9)) : one;
    }),
  );
}

describe("what a customer may do", () => {
  const head = text.slice(0, text.indexOf("events:"));
  const job = (...events: readonly string[]) =>
    must(
      workOut(
        must(readJob([`${head}events:`, ...events.map((event) => `  - ${event}`)].join("\n"))),
        ground,
        undefined,
        () => opened,
      ),
    );
  const cleaned = 'did: {remedy: clean duct and filter, on: lint, worked: "yes"}';

  test("opened by hand and cleaned owes no test; a cover behind screws, a connector or a part mended does", () => {
    const touched = (...events: readonly string[]) => !folded(job(...events)).isUntouched;
    expect(touched(cleaned)).toBe(false);
    expect(touched("opened: door", cleaned)).toBe(false);
    expect(touched("opened: back", cleaned)).toBe(true);
    expect(touched("measured: {from: X3.1, to: X3.3, shows: 22, pulled: [X3], leads: nulled}", cleaned)).toBe(true);
    expect(touched(cleaned, "did: {remedy: fit a new heater, on: heater}")).toBe(true);
    expect(reasonsOf(job("told: {heat: cold}", cleaned, "seen: {heat: hot}"))).toEqual([]);
  });
});
