import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readJob } from "./read-job.ts";
import { type LedgerEvent, recordOf, writtenJob } from "./record.ts";

const event = (id: number, kind: string, body: unknown): LedgerEvent => ({
  id: `e${String(id).padStart(3, "0")}`,
  job: "j1",
  time: `2026-03-01T09:${String(id % 60).padStart(2, "0")}:00Z`,
  device: "phone",
  person: "",
  kind,
  body,
});

const job = [
  event(1, "begins", { number: "26-1", sheet: "tumble-dryer", complaint: "stays cold", customer: "the bakery" }),
  event(2, "told", { heat: "cold" }),
  event(3, "measured", { from: "X3.1", to: "X3.3", shows: "OL" }),
  event(4, "withdraws", "e003"),
  event(5, "measured", { from: "X3.1", to: "X3.3", shows: "44.1" }),
  event(6, "amends", { machine: { age: "7 years" } }),
];

describe("a job kept as events", () => {
  test("what was taken back is left out of the file, what begins and amends the job is its head", () => {
    const record = recordOf(job);
    if (record === undefined) throw new Error("no record");
    expect([...record.withdrawn]).toEqual(["e003"]);
    const written = writtenJob(record);
    expect(written.ids).toEqual(["e002", "e005"]);
    const read = readJob(written.text, "job.yaml");
    if (!read.ok) throw new Error(JSON.stringify(read.issues));
    expect(read.value).toMatchObject({ id: "26-1", complaint: "stays cold", machine: { ageYears: 7 } });
    expect(read.value.events.map(({ kind }) => kind)).toEqual(["told", "measured"]);
  });

  test("a withdrawal that is itself withdrawn lets the event count again", () => {
    const record = recordOf([...job, event(7, "withdraws", "e004")]);
    expect([...(record?.withdrawn ?? [])]).toEqual(["e004"]);
  });

  test("nothing is folded before the event that begins the job has come", () => {
    expect(recordOf(job.slice(1))).toBeUndefined();
  });

  test("a job whose beginning was taken back is no job, until that is taken back too", () => {
    const away = [...job, event(7, "withdraws", "e001")];
    expect(recordOf(away)).toBeUndefined();
    expect(recordOf([...away, event(8, "withdraws", "e007")])?.head.number).toBe("26-1");
  });

  test("a job that was closed and opened again is open", () => {
    expect(recordOf([...job, event(7, "closes", null)])?.end).toBe("stopped");
    expect(recordOf([...job, event(7, "closes", null), event(8, "reopens", null)])?.end).toBeUndefined();
  });

  test("cautions that were read are told of the job, not to its machine, and stand open again once that is taken back", () => {
    const read = [...job, event(7, "minded", ["isolate", "edges"])];
    const record = recordOf(read);
    if (record === undefined) throw new Error("no record");
    expect([...record.minded]).toEqual(["isolate", "edges"]);
    expect(writtenJob(record).ids).toEqual(["e002", "e005"]);
    expect(recordOf([...read, event(8, "withdraws", "e007")])?.minded.size).toBe(0);
  });

  test("the last end counts: left waiting, gone on with, mended", () => {
    const waiting = [...job, event(7, "closes", "waiting")];
    expect(recordOf(waiting)?.end).toBe("waiting");
    expect(recordOf([...waiting, event(8, "reopens", null), event(9, "closes", "mended")])?.end).toBe("mended");
  });

  test("a note, and a thing ticked off by one, changes nothing that is worked out", () => {
    const [bare, noted] = [job, [...job, event(7, "note", "Done: hoses tight")]].map((events) => recordOf(events));
    if (bare === undefined || noted === undefined) throw new Error("no job");
    expect(noted.events).toHaveLength(bare.events.length + 1);
    expect(writtenJob(noted)).toEqual(writtenJob(bare));
  });

  test("opened again it is left waiting no longer; left once more it waits for that", () => {
    const left = (n: number, what: string) => event(n, "left", { "waiting for": what, "made safe": ["plug out"] });
    const eventsOf = (...more: LedgerEvent[]) => {
      const record = recordOf([...job, ...more]);
      if (record === undefined) throw new Error("no job");
      return JSON.parse(writtenJob(record).text).events as readonly Record<string, unknown>[];
    };
    const waiting = [left(7, "a pump"), event(8, "closes", "waiting")];
    const opened = [...waiting, event(9, "reopens", null)];
    const waits = (...more: LedgerEvent[]) => eventsOf(...more).flatMap(({ left }) => left ?? []);
    expect(waits(...waiting)).toHaveLength(1);
    expect(waits(...opened)).toEqual([]);
    expect(waits(...opened, event(10, "withdraws", "e009"))).toHaveLength(1);
    expect(waits(...opened, left(11, "an answer"))).toMatchObject([{ "waiting for": "an answer" }]);
  });

  test("events that come in any order, and twice, fold to the same record", () => {
    const whole = recordOf(job);
    fc.assert(
      fc.property(fc.shuffledSubarray(job, { minLength: job.length }), fc.subarray(job), (shuffled, again) => {
        expect(recordOf([...shuffled, ...again])).toEqual(whole);
      }),
    );
  });
});
