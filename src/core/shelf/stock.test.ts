import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { LedgerEvent } from "../ledger/index.ts";
import { type ShelfItem, stockNow, stockRecordOf } from "./index.ts";

const at = (n: number): string => String(n).padStart(3, "0");
const event = (n: number, kind: string, body: unknown): LedgerEvent => ({
  id: at(n),
  job: "shelf",
  time: "2026-03-04T10:00:00Z",
  device: "phone",
  person: "",
  kind,
  body,
});
const put = (n: number, by: number, more: object = {}) =>
  event(n, "stocked", { part: "heater", says: "heater 2 kW", where: "van", by, ...more });
const used = (n: number, repair: number, state = "new") =>
  event(n, "used", { repair: at(repair), job: "26-1", takes: { part: "heater", state } });

const all = () => true;
const now = (events: readonly LedgerEvent[], stands: (repair: string) => boolean = all) =>
  stockNow(stockRecordOf(events), [], stands);
const counts = (events: readonly LedgerEvent[], stands?: (repair: string) => boolean) =>
  now(events, stands).items.map(({ where, count, least }) => [where, count, least]);

describe("the stock as its events tell it", () => {
  test("what is put there by two hands adds up; least stays until it is told anew; nothing goes below none", () => {
    expect(counts([put(1, 2, { least: 3 }), put(2, 1), put(3, 1, { where: "store" })])).toEqual([
      ["van", 3, 3],
      ["store", 1, 0],
    ]);
    expect(counts([put(1, 1), put(2, -3), put(3, 2)])).toEqual([["van", 2, 0]]);
  });

  test("what was taken back does not count, is told all the same, and erases nothing", () => {
    const events = [put(1, 2), put(2, 5), event(3, "withdraws", at(2))];
    expect(counts(events)).toEqual([["van", 2, 0]]);
    expect(stockRecordOf(events).stocked.map(({ isTakenBack }) => isTakenBack)).toEqual([false, true]);
  });

  test("a repair takes at its own time, once however often it was worked out, and nothing once it is taken back", () => {
    const events = [put(1, 1), used(9, 5), used(10, 5), put(6, 1)];
    expect(counts(events)).toEqual([["van", 1, 0]]);
    expect(counts(events, () => false)).toEqual([["van", 2, 0]]);
    // It was made before the part lay there.
    expect(counts([put(4, 1), used(9, 3)])).toEqual([["van", 1, 0]]);
  });

  test("used while none lay there: named, until somebody counts; of what never lay there nothing is said", () => {
    const short = [put(1, 1), used(8, 2), used(9, 3)];
    expect(now(short).lacking).toEqual([{ job: "26-1", part: "heater", state: "new" }]);
    expect(now([...short, put(7, 4)]).lacking).toEqual([]);
    expect(now([used(9, 3)]).lacking).toEqual([]);
  });

  test("a tested part goes to a repair with a used one, after it was put on the shelf", () => {
    const tag = { grade: "good", tested: "2026-03-01" } as const;
    const item: ShelfItem = { part: "heater", says: "S-1", where: "bench", state: "used", count: 1, least: 0, tag };
    const left = (repair: number) =>
      stockNow(stockRecordOf([used(9, repair, "used")]), [{ event: at(4), item }], all).items[0]?.count;
    expect([left(5), left(3)]).toEqual([0, 1]);
  });

  test("a body of another form is left out; events in any order, and twice, come to the same", () => {
    const odd = [null, 7, { part: "heater" }, { part: "heater", says: "x", where: "attic", by: 1 }];
    expect(counts(odd.map((body, n) => event(n, "stocked", body)))).toEqual([]);
    const events = [put(1, 3), put(2, -1), event(3, "withdraws", at(2)), used(8, 4), put(5, 2, { where: "store" })];
    fc.assert(
      fc.property(fc.shuffledSubarray(events, { minLength: events.length }), fc.subarray(events), (shuffled, again) => {
        expect(now([...shuffled, ...again])).toEqual(now(events));
      }),
    );
  });
});
