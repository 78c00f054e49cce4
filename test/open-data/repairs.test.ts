import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { readRepairs, tabulate, writeRepairs } from "../../src/core/repairs/index.ts";
import { openData } from "./folder.ts";

// Repair attempts of community workshops (Open Repair Alliance, Open Repair Data, CC BY-SA 4.0; the folder's NOTICE tells what was
// left out). Nothing of them is copied here.
const { folder, isThere, told } = openData("open-repair");

function read(text: string) {
  const repairs = readRepairs(text);
  if (!repairs.ok) throw new Error(JSON.stringify(repairs.issues));
  return repairs;
}

describe.skipIf(!isThere)(told, () => {
  const published = isThere
    ? read(readFileSync(join(folder, "ords_household_sample.csv"), "utf8"))
    : read("id,repair_status,event_date\n");

  test("39,562 published rows are read, every deviation counted", () => {
    expect(published.value).toHaveLength(39_562);
    const counts = published.warnings.map(({ code, found }) => [code, Number(/^\d+/.exec(found)?.[0] ?? 0)]);
    expect(new Map(counts as [string, number][])).toEqual(
      new Map([
        ["repairs.columns", 0],
        ["repairs.id", 39_562],
        ["repairs.year", 4673],
        ["repairs.barrier", 118],
      ]),
    );
  });

  test("written and read again they are the same, with nothing left to say but of the ids' hyphens", () => {
    const again = read(writeRepairs(published.value));
    expect(again.warnings).toEqual([]);
    expect(again.value).toEqual(published.value);
    expect(writeRepairs(again.value)).toBe(writeRepairs(published.value));
  });

  test("the published summary of each category that is here whole is reproduced: shares to 0.1 %, ages to 0.1 years", () => {
    const [names = [], ...lines] = readFileSync(join(folder, "ords_category_summary.csv"), "utf8")
      .trim()
      .split(/\r?\n/)
      .map((line) => line.split(","));
    const rows = new Map(tabulate(published.value).map((row) => [row.category, row]));
    const wanted = lines
      .map((cells) => new Map(cells.map((cell, at) => [names[at] ?? "", cell])))
      .filter((want) => Number(want.get("n")) === rows.get(want.get("category") ?? "")?.count);
    expect(wanted).toHaveLength(11);
    for (const want of wanted) {
      const category = want.get("category") ?? "";
      const row = rows.get(category);
      if (row === undefined) throw new Error(category);
      const number = (name: string): number => Number(want.get(name));
      const { fixed, repairable, endOfLife, ages } = row;
      expect([row.known, row.aged, row.barred], category).toEqual([
        number("known"),
        number("n_age"),
        number("n_barrier"),
      ]);
      const percents = [fixed, repairable, endOfLife].map((share) => Number((100 * share).toFixed(1)));
      expect(percents, category).toEqual([number("fixed"), number("repairable"), number("eol")]);
      for (const [at, name] of ["age_p10", "age_p25", "age_med", "age_p75", "age_p90"].entries()) {
        expect(Math.abs((ages[at] ?? 0) - number(name)), `${category} ${name}`).toBeLessThanOrEqual(0.0501);
      }
      for (const [barrier, share] of row.barriers) {
        expect(Math.abs(100 * share - number(`b_${barrier}`)), `${category} ${barrier}`).toBeLessThanOrEqual(0.0501);
      }
    }
  });
});
