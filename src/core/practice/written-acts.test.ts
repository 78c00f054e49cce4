import { describe, expect, test } from "vitest";
import { commonestType, shippedTrial } from "../../../test/machines/shipped-trial.ts";
import { seeded } from "../chance/index.ts";
import { readJob, type WrittenEvent } from "../ledger/index.ts";
import { drawPractice, type Practice, practise } from "./index.ts";

const ask = shippedTrial("tumble-dryer");
const type = commonestType(ask);

function practice(): Practice {
  const drawn = drawPractice(type, ask.shop, seeded("4711"));
  if (drawn === undefined) throw new Error("no machine was drawn");
  return drawn;
}

const reading = { kind: "measured", body: { from: "X3.1", to: "X3.3", shows: "?", pulled: ["X3"] } };
const unplugged = { kind: "unplugged", body: "yes" };
const isolated = { kind: "isolated", body: "two-pole tester" };
const opened = { kind: "opened", body: "board" };

describe("what an ordinary screen writes down, at a machine with a hidden fault", () => {
  test("a cover while the plug is in is not opened, and nothing is written", () => {
    const { events, refused } = practise(practice(), [opened, reading]);
    expect(events).toEqual([]);
    expect(refused).toMatchObject({ kind: "danger", danger: "open while live" });
  });

  test("isolated, opened, measured: the machine answers, and a job file reads its events as they happened", () => {
    const learner = practice();
    const first = learner.events.length;
    const { events, refused } = practise(learner, [isolated, opened, reading]);
    expect(refused).toBeUndefined();
    const shown = (events.at(-1) as WrittenEvent).body as Record<string, unknown>;
    expect(shown).toMatchObject({ from: "X3.1", to: "X3.3", pulled: ["X3"] });
    expect(shown.shows).not.toBe("?");
    const text = JSON.stringify({
      format: "faultwright-job/1",
      job: "practice",
      sheet: "tumble-dryer",
      shop: "demo-shop",
      complaint: "stays cold",
      events: events.map(({ kind, body }) => ({ [kind]: body })),
    });
    const job = readJob(text);
    if (!job.ok) throw new Error(JSON.stringify(job.issues));
    expect(job.value.events.map(({ kind }) => kind)).toEqual(learner.events.slice(first).map(({ kind }) => kind));
  });

  test("getting ready is told in the order of life: plug out, cover off, proved dead", () => {
    const { events, refused } = practise(practice(), [unplugged, opened, isolated]);
    expect(refused).toBeUndefined();
    expect(events.map(({ kind }) => kind)).toEqual(["unplugged", "opened", "isolated"]);
  });

  test("a cover opened with the plug in is refused", () => {
    const { events, refused } = practise(practice(), [opened, isolated]);
    expect(events).toEqual([]);
    expect(refused).toMatchObject({ kind: "danger", danger: "open while live" });
  });

  test("the same acts on the same machine give the same answers", () => {
    const done = [isolated, opened, reading, { kind: "told", body: { heat: "?" } }];
    expect(practise(practice(), done)).toEqual(practise(practice(), done));
  });

  test("what touches no machine is written down as it is", () => {
    const note = { kind: "note", body: "asked for the age" };
    expect(practise(practice(), [note])).toEqual({ events: [note] });
  });
});
