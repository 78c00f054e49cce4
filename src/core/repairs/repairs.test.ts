import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readJob } from "../ledger/index.ts";
import {
  BARRIERS,
  CATEGORIES,
  type Repair,
  readRepairs,
  repairOfJob,
  STATUSES,
  tabulate,
  writeRepairs,
} from "./index.ts";

const HEAD =
  "id,data_provider,country,partner_product_category,product_category,product_category_id,brand,year_of_manufacture,product_age,repair_status,repair_barrier_if_end_of_life,group_identifier,event_date,problem";

function read(...rows: readonly string[]) {
  const repairs = readRepairs([HEAD, ...rows, ""].join("\n"), "repairs.csv");
  if (!repairs.ok) throw new Error(JSON.stringify(repairs.issues));
  return { repairs: repairs.value, told: repairs.warnings.map(({ code, line }) => `${code}:${line}`) };
}

describe("reading (Open Repair Data Standard v0.3, fields and codelists)", () => {
  test("a row in the standard's own form has nothing to be said", () => {
    const { repairs, told } = read(
      'ferrybank-7,Ferrybank workshop,DEU,dryer,Large home electrical,17,Unknown,2016,9.5,End of life,Lack of equipment,,2026-03-04,"cold, says she"',
    );
    expect(told).toEqual([]);
    expect(repairs).toEqual([
      {
        id: "ferrybank-7",
        provider: "Ferrybank workshop",
        country: "DEU",
        partnerCategory: "dryer",
        category: "Large home electrical",
        madeIn: 2016,
        ageYears: 9.5,
        status: "End of life",
        barrier: "Lack of equipment",
        date: "2026-03-04",
        problem: "cold, says she",
      },
    ]);
  });

  test("what published files do otherwise is taken as it is meant, and told once a kind with the first line", () => {
    const { repairs, told } = read(
      "ferrybank_7,F,DEU,dryer,Large home electrical,17,,????,,End of life,No way to open the product,,2026-03-04,",
      "ferrybank_8,F,DEU,dryer,Large home electrical,17,,????,,End of life,Too worn out,,2026-03-04,",
      "ferrybank_9,F,DEU,dryer,Large home electrical,17,,,,Fixed,Lack of equipment,,2026-03-04,",
    );
    expect(repairs.map(({ id, barrier }) => [id, barrier])).toEqual([
      ["ferrybank-7", "No way to open product"],
      ["ferrybank-8", "Item too worn out"],
      ["ferrybank-9", undefined],
    ]);
    expect(told).toEqual(["repairs.year:2", "repairs.barrier:2", "repairs.id:2", "repairs.barrier-without-end:4"]);
  });

  test("nonsense in a cell costs that cell; a row of another width costs the row; codes stand for their words", () => {
    const { repairs, told } = read(
      "x-1,F,de,dryer,Mangle,99,,,x,3,6,,yesterday,",
      "x-1,F,DEU,dryer,,,,,,broken,,,2026-03-04,",
      "x-2,F",
      'x-3,F,DEU,"open',
    );
    expect(repairs.map(({ status, barrier }) => [status, barrier])).toEqual([
      ["End of life", "Item too worn out"],
      ["Unknown", undefined],
    ]);
    expect(told.map((code) => code.split(":")[0]).sort()).toEqual([
      "repairs.age",
      "repairs.category",
      "repairs.country",
      "repairs.date",
      "repairs.id-twice",
      "repairs.row",
      "repairs.status",
    ]);
  });

  test.each(["", "a,b\n1,2\n", "\u0000\u0001"])("a file of another form is refused: %j", (text) => {
    expect(readRepairs(text, "x.csv")).toMatchObject({ ok: false, issues: [{ code: "repairs.form", line: 1 }] });
  });
});

test("written and read again any repair is the same, and has nothing to be said", () => {
  const words = fc.string({ unit: fc.constantFrom(..."abä ,\"'\n;0") }).map((text) => text.trim());
  const some = <T>(of: fc.Arbitrary<T>) => fc.option(of, { nil: undefined });
  const repair = fc
    .record({
      provider: words,
      country: some(fc.constantFrom("DEU", "GBR")),
      partnerCategory: words,
      category: some(fc.constantFrom(...CATEGORIES)),
      brand: some(words.filter((text) => text !== "" && text !== "Unknown")),
      madeIn: some(fc.integer({ min: 1900, max: 2030 })),
      ageYears: some(fc.integer({ min: 0, max: 900 }).map((tenths) => tenths / 10)),
      status: fc.constantFrom(...STATUSES),
      barrier: some(fc.constantFrom(...BARRIERS)),
      group: some(words.filter((text) => text !== "")),
      date: fc.constantFrom("2026-03-04", "1999-12-13"),
      problem: words,
    })
    .map(({ barrier, ...rest }) => (rest.status === "End of life" ? { ...rest, barrier } : rest));
  fc.assert(
    fc.property(fc.array(repair, { maxLength: 6 }), (drawn) => {
      const repairs = drawn.map((one, at) => JSON.parse(JSON.stringify({ id: `x-${at}`, ...one })) as Repair);
      const again = readRepairs(writeRepairs(repairs));
      expect(again).toEqual({ ok: true, value: repairs, warnings: [] });
    }),
    { numRuns: 300, seed: 4 },
  );
});

describe("a finished job", () => {
  const facts = { provider: "Ferrybank workshop", country: "DE", date: "2026-03-04", appliance: "tumble dryer" };
  const repairOf = (events: string, more: Partial<Parameters<typeof repairOfJob>[1]> = {}) => {
    const text = `format: faultwright-job/1\njob: 26-0142\nsheet: tumble-dryer\nmachine: {age: 7 years}\nshop: demo-shop\ncomplaint: "stays cold, smells"\nevents: [${events}]\n`;
    const job = readJob(text, "job.yaml");
    if (!job.ok) throw new Error(JSON.stringify(job.issues));
    return repairOfJob(job.value, { ...facts, ...more });
  };
  const did = "{did: {remedy: fit a new heater, on: heater, worked: yes}}";
  const didNot = "{did: {remedy: fit a new heater, on: heater, worked: no}}";
  const declined = "{declined: all}";
  const ordered = "{ordered: {part: heater}}";

  test("has every field that the standard requires", () => {
    const repair = repairOf(did);
    expect(repair).toEqual({
      ok: true,
      warnings: [],
      value: {
        id: "ferrybank-260142",
        provider: "Ferrybank workshop",
        country: "DEU",
        partnerCategory: "tumble dryer",
        category: "Large home electrical",
        ageYears: 7,
        status: "Fixed",
        date: "2026-03-04",
        problem: "stays cold, smells",
      },
    });
  });

  test.each([
    ["mended", did, "Fixed"],
    ["mended after it waited for a part", `${ordered}, ${did}`, "Fixed"],
    ["the repair did not cure it", didNot, "Unknown"],
    ["declined", declined, "Repairable"],
    ["waits for a part", ordered, "Repairable"],
    ["left waiting, made safe", "{left: {waiting for: an answer, made safe: [plug out]}}", "Repairable"],
    ["the repair was taken back", `${did}, {withdraws: 1}`, "Unknown"],
    ["nothing yet", "", "Unknown"],
  ])("%s", (_what, events, status) => {
    expect(repairOf(events)).toMatchObject({ ok: true, value: { status } });
  });

  test("given up: the end of its life with exactly one barrier; never on a mended one", () => {
    const barrier = "Spare parts too expensive" as const;
    expect(repairOf(declined, { barrier })).toMatchObject({ value: { status: "End of life", barrier } });
    expect(repairOf(did, { barrier })).toMatchObject({ ok: false, issues: [{ code: "repairs.job-barrier" }] });
  });

  test("what neither job nor shop tells is asked for, all at once; a paper handed over tells the day", () => {
    const { date: _date, country: _country, ...bare } = facts;
    const job = readJob("format: faultwright-job/1\njob: x\nsheet: tumble-dryer\ncomplaint: cold\n");
    if (!job.ok) throw new Error(JSON.stringify(job.issues));
    const repair = repairOfJob(job.value, { ...bare, provider: "" });
    expect(repair.ok ? [] : repair.issues.map(({ code }) => code)).toEqual([
      "repairs.job-id",
      "repairs.job-country",
      "repairs.job-date",
    ]);
  });

  test("the job's own day goes before one that is told for many", () => {
    const text = "format: faultwright-job/1\njob: 26-0142\ndate: 2026-03-01\nsheet: tumble-dryer\ncomplaint: cold\n";
    const job = readJob(text);
    if (!job.ok) throw new Error(JSON.stringify(job.issues));
    expect(repairOfJob(job.value, facts)).toMatchObject({ ok: true, value: { date: "2026-03-01" } });
  });

  test("counted: shares of known outcomes, quantiles between two values", () => {
    const made = (status: Repair["status"], ageYears: number): Repair => ({
      id: `x-${ageYears}`,
      provider: "F",
      partnerCategory: "",
      category: "Kettle",
      status,
      ageYears,
      problem: "",
    });
    const [all, kettle] = tabulate([
      made("Fixed", 1),
      made("Fixed", 2),
      made("End of life", 4),
      made("Unknown", 8),
      made("Repairable", 99),
    ]);
    expect(all).toMatchObject({ count: 5, known: 4, fixed: 0.5, repairable: 0.25, endOfLife: 0.25, aged: 4 });
    expect(kettle?.ages[2]).toBe(3);
  });
});
