import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, test } from "vitest";
import { branchJob, must, workedBranch } from "../../../test/machines/branch-job.ts";
import { readJob, type WorkedJob } from "../ledger/index.ts";
import { readShelf, type Shelf, shelfAfter, toOrder } from "./index.ts";

const shelfOf = (...items: readonly string[]): Shelf =>
  must(readShelf(`format: faultwright-shelf/1\nshelf:\n${items.map((item) => `  - ${item}\n`).join("")}`));

const counts = (shelf: Shelf): readonly number[] => shelf.items.map(({ count }) => count);

describe("a shelf", () => {
  const NEW = "  - did: {remedy: fit a new heater, on: heater, worked: yes}\n";
  let mended: WorkedJob;
  let usedFitted: WorkedJob;
  let waiting: WorkedJob;

  beforeAll(() => {
    mended = workedBranch(NEW);
    usedFitted = workedBranch("  - did: {remedy: fit a used one, on: heater, worked: yes}\n");
    waiting = workedBranch("");
  });

  /** A job whose ledger says these things of money: its repairs are those of the worked one. */
  const agreed = (events: string): WorkedJob => ({ ...waiting, job: must(readJob(branchJob(events))) });

  test("gives a new heater from the van before the store, one a repair, and never less than none", () => {
    const shelf = shelfOf("{part: heater, where: store, count: 5}", "{part: heater, where: van, count: 1}");
    expect(counts(shelfAfter(shelf, [mended]).shelf)).toEqual([5, 0]);
    expect(counts(shelfAfter(shelf, [mended, mended]).shelf)).toEqual([4, 0]);
    const empty = shelfAfter(shelfOf("{part: heater, where: van, count: 0}"), [mended]);
    expect(counts(empty.shelf)).toEqual([0]);
    expect(empty.taken).toEqual([{ job: "1", part: "heater", state: "new" }]);
  });

  test("gives a used part only for a used one, and only with a bench test that it passed", () => {
    const tag = (grade: string) =>
      `{part: heater, where: bench, state: used, count: 1, tag: {grade: ${grade}, tested: 2026-02-20}}`;
    const untested = "{part: heater, where: bench, state: used, count: 1}";
    expect(counts(shelfAfter(shelfOf(tag("good")), [mended]).shelf)).toEqual([1]);
    expect(counts(shelfAfter(shelfOf(tag("good")), [usedFitted]).shelf)).toEqual([0]);
    expect(counts(shelfAfter(shelfOf(tag("doubtful"), untested), [usedFitted]).shelf)).toEqual([1, 1]);
    expect(counts(shelfAfter(shelfOf(untested, tag("not faulted")), [usedFitted]).shelf)).toEqual([1, 0]);
  });

  test("orders the part of an accepted choice that it does not hold, once, until it has arrived", () => {
    const ACCEPTED = "  - accepted: heater/fit a new heater\n";
    const none = shelfOf();
    const line = { part: "heater", count: 1, jobs: ["1"], ordered: false };
    expect(toOrder(none, [agreed("")])).toEqual([]);
    expect(toOrder(none, [agreed(ACCEPTED)])).toMatchObject([line]);
    expect(toOrder(none, [agreed(`${ACCEPTED}  - ordered: heater\n`)])).toMatchObject([{ ...line, ordered: true }]);
    expect(toOrder(none, [agreed(`${ACCEPTED}  - ordered: heater\n  - arrived: heater\n`)])).toEqual([]);
    expect(toOrder(none, [{ ...mended, job: agreed(ACCEPTED).job }])).toEqual([]);
    expect(toOrder(none, [agreed("  - accepted: heater/fit a new heater, used\n")])).toEqual([]);
  });

  test("promises one heater to one job: the second job's is ordered, and the van's least with it", () => {
    const shelf = shelfOf("{part: heater, where: van, count: 1, least: 1}");
    const job = agreed("  - accepted: heater/fit a new heater\n");
    expect(toOrder(shelf, [job])).toMatchObject([{ part: "heater", count: 1, jobs: [] }]);
    expect(toOrder(shelf, [job, job]).map(({ jobs, count }) => [jobs.length, count])).toEqual([
      [1, 1],
      [0, 1],
    ]);
  });
});

test("the demonstration shelf is read, and its van is as full as it should be", () => {
  const shelf = must(readShelf(readFileSync("data/shelves/demo-shelf.yaml", "utf8")));
  expect(shelf.items).toHaveLength(6);
  expect(toOrder(shelf, [])).toEqual([]);
});

test.each([
  ["{part: heater, where: attic, count: 1}", "read.choice"],
  ["{part: heater, where: van, count: 1.5}", "shelf.count"],
  ["{part: heater, where: van, count: 1, tag: {grade: good, tested: 2026-02-20}}", "shelf.tag"],
  ["{part: heater, where: van, state: used, count: 1, tag: {grade: good, tested: 2026-02-31}}", "job.date"],
  ["{where: van, count: 1}", "read.missing"],
])("%s is refused: %s", (item, code) => {
  const read = readShelf(`format: faultwright-shelf/1\nshelf:\n  - ${item}\n`);
  expect(read.ok ? [] : read.issues.map((issue) => issue.code)).toContain(code);
});
