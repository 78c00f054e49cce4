// A family's rows as small jobs: what must come out was written down in a file before any of it was run.
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { readWith } from "../../src/core/part/index.ts";
import type { Belief } from "../../src/core/suspect/index.ts";
import { must, openJob } from "./jobs.ts";

const UNKNOWN = "something not on this sheet";
const LESS = { pairsAtMost: 2000, candidatesAtMost: 3 };

interface Expected {
  readonly job: string;
  readonly row: string;
  readonly among: number;
  readonly parts: readonly string[];
}

function expectedIn(file: string): readonly Expected[] {
  return must(
    readWith(readFileSync(new URL(file, import.meta.url), "utf8"), file, (root) =>
      (root.need("jobs")?.entries() ?? []).map(
        ([job, at]): Expected => ({
          job,
          row: at.need("row")?.word() ?? "",
          among: at.need("among")?.number(1, 3) ?? 1,
          parts: at.need("parts")?.words() ?? [],
        }),
      ),
    ),
  );
}

/** The possible faults, heaviest first; with what no sheet knows in its place where that is what must come out. */
function listed(belief: Belief, wanted: readonly string[]): readonly { readonly part: string; readonly p: number }[] {
  if (!wanted.includes(UNKNOWN)) return belief.parts;
  return [...belief.parts, { part: UNKNOWN, p: belief.notOnThisSheet }].sort((a, b) => b.p - a.p);
}

/** Place of the first part that is one of these in the list of possible faults, from 1; 0 when none is. */
function placeOf(belief: Belief, wanted: readonly string[]): number {
  const patterns = wanted.map(
    (name) => new RegExp(`^${name.replace(/[.+?^${}()|[\]\\]/g, "\\$&").replaceAll("*", ".*")}$`),
  );
  return listed(belief, wanted).findIndex(({ part }) => patterns.some((pattern) => pattern.test(part))) + 1;
}

/** A test for each job of the file, and one that each row `letter`1 to `letter``rows` of the trade's table has a job. */
export function testRows(file: string, letter: string, rows: number): void {
  const expected = expectedIn(file);
  it.each(expected)(
    "$row, $job: among the first $among",
    ({ job, among, parts }) => {
      const { belief } = openJob(`test/rows/${job}.yaml`, LESS);
      const place = placeOf(belief, parts);
      const list = listed(belief, parts)
        .slice(0, 5)
        .map(({ part, p }) => `${part} ${p.toFixed(2)}`);
      expect(place, `possible faults were ${list.join(", ")}`).toBeGreaterThan(0);
      expect(place, `possible faults were ${list.join(", ")}`).toBeLessThanOrEqual(among);
    },
    60_000,
  );

  it(`has a job for each of the ${rows} rows`, () => {
    const told = new Set(expected.map(({ row }) => row));
    for (let n = 1; n <= rows; n++) expect(told, `row ${letter}${n}`).toContain(`${letter}${n}`);
  });
}
