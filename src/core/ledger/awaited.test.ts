import { expect, test } from "vitest";
import { awaitedOf } from "./awaited.ts";
import { type LedgerEvent, recordOf } from "./record.ts";

const HEAD = { number: "26-1", sheet: "tumble-dryer", complaint: "stays cold" };

/** Who a job with these events waits for. */
function awaited(...said: readonly (readonly [kind: string, body: unknown])[]) {
  const events = [["begins", HEAD] as const, ...said].map(
    ([kind, body], n): LedgerEvent => ({
      id: `e${String(n).padStart(3, "0")}`,
      job: "j1",
      time: "2026-03-01T09:00:00Z",
      device: "phone",
      person: "",
      kind,
      body,
    }),
  );
  const record = recordOf(events);
  if (record === undefined) throw new Error("no record");
  return awaitedOf(record);
}

const OFFERED = ["offered", [{ choice: "c1", says: "fit a heater", price: 180 }]] as const;
const ORDERED = ["ordered", { part: "heater", says: "heater, 2 kW", due: "2026-03-06" }] as const;

test("a job in hand waits for us, by the visit that was promised last and not called off", () => {
  expect(awaited()).toEqual({ who: "us" });
  const visit = ["visit", { number: 1, at: "2026-03-04T10:30+01:00", minutes: 60 }] as const;
  expect(awaited(visit)).toEqual({ who: "us", by: "2026-03-04T10:30+01:00" });
  expect(awaited(visit, ["visit", { number: 1, cancelled: "yes" }])).toEqual({ who: "us" });
});

test("shown choices wait for the customer until one is accepted or all are declined", () => {
  expect(awaited(OFFERED)).toEqual({ who: "customer" });
  expect(awaited(OFFERED, ["accepted", { choice: "c1" }])).toEqual({ who: "us" });
  expect(awaited(OFFERED, ["declined", "all"])).toEqual({ who: "us" });
  expect(awaited(OFFERED, ["accepted", "c1"], ["withdraws", "e002"])).toEqual({ who: "customer" });
});

test("a part on order is waited for until it has come, and then the job is ours again", () => {
  const left = ["left", { "waiting for": "a heater", "made safe": ["plug out"] }] as const;
  const waiting = [OFFERED, ["accepted", "c1"], ORDERED, left, ["closes", "waiting"]] as const;
  expect(awaited(...waiting)).toEqual({ who: "part", what: "heater, 2 kW", by: "2026-03-06" });
  expect(awaited(...waiting, ["arrived", "heater"])).toEqual({ who: "us", what: "heater, 2 kW" });
  expect(awaited(["ordered", "belt"], ["ordered", "heater"], ["arrived", "belt"])).toEqual({
    who: "part",
    what: "heater",
  });
});

test("left waiting for what stands on no order, it waits for what was written", () => {
  const left = ["left", { "waiting for": "the landlord's word", "made safe": ["plug out"] }] as const;
  expect(awaited(left, ["closes", "waiting"])).toEqual({ who: "other", what: "the landlord's word" });
  expect(awaited(left, ["closes", "waiting"], ["reopens", null])).toEqual({ who: "us" });
});

test("an ended job waits for its money as far as it was invoiced and not paid or credited; a quote asks for none", () => {
  const mended = ["closes", "mended"] as const;
  const invoice = ["issued", { paper: "invoice", number: "R-1", date: "2026-03-04", total: 180.5 }] as const;
  expect(awaited(["issued", { paper: "quote", number: "Q-1", date: "2026-03-02", total: 180.5 }], mended)).toEqual({
    who: "nobody",
  });
  expect(awaited(invoice, mended)).toEqual({ who: "money" });
  expect(awaited(invoice, ["paid", 100], mended)).toEqual({ who: "money" });
  expect(awaited(invoice, ["paid", 100], ["paid", { amount: 80.5, how: "cash" }], mended)).toEqual({ who: "nobody" });
  const credit = [
    "issued",
    { paper: "credit note", number: "G-1", of: "R-1", date: "2026-03-05", total: -180.5 },
  ] as const;
  expect(awaited(invoice, credit, ["closes", "stopped"])).toEqual({ who: "nobody" });
});
