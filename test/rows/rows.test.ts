// Every row of the trade's table for tumble dryers as a small job: the complaint and the readings a technician would take
// first. What must come out was written down in expected.yaml before any of it was run (common practice, no source).
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Checked } from "../../src/core/issue/index.ts";
import { sentence } from "../../src/core/issue/index.ts";
import { foldJob, knownAnswers, knownDifferences, readJob } from "../../src/core/ledger/index.ts";
import { type Meter, readMeter } from "../../src/core/meter/index.ts";
import { readWith } from "../../src/core/part/index.ts";
import { readShop } from "../../src/core/remedy/index.ts";
import { type Belief, openCase } from "../../src/core/suspect/index.ts";
import { readDryer } from "./dryer.ts";

/** Fewer pairs and fewer ways of filling open slots than a job looks at: 27 cases are opened here. */
const LESS = { pairsAtMost: 2000, candidatesAtMost: 3 };

const here = (name: string): URL => new URL(name, import.meta.url);
const data = (name: string): string => readFileSync(new URL(`../../data/${name}`, import.meta.url), "utf8");

function must<T>(checked: Checked<T>): T {
  if (!checked.ok) throw new Error(checked.issues.map(sentence).join("\n"));
  return checked.value;
}

interface Expected {
  readonly job: string;
  readonly row: string;
  readonly among: number;
  readonly parts: readonly string[];
}

const expected = must(
  readWith(readFileSync(here("expected.yaml"), "utf8"), "expected.yaml", (root) =>
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

const meters: ReadonlyMap<string, Meter> = new Map(
  readdirSync(new URL("../../data/meters/", import.meta.url))
    .filter((file) => file.endsWith(".yaml"))
    .map((file) => [file.replace(".yaml", ""), must(readMeter(data(`meters/${file}`), file))]),
);
const shop = must(readShop(data("costs/demo-shop.yaml"), "demo-shop", "demo-shop.yaml"));
const dryer = readDryer();

function believed(name: string): Belief {
  const file = `${name}.yaml`;
  const job = must(readJob(readFileSync(here(file), "utf8"), file));
  const opened = must(
    openCase({
      ...dryer,
      answers: knownAnswers(job),
      differences: knownDifferences(job),
      ...LESS,
    }),
  );
  const machines = opened.candidates.map(({ machine }) => machine);
  const { observations } = must(foldJob(job, machines, shop, meters, file));
  return opened.update(observations.map(({ observation }) => observation));
}

/** Place of the first part that is one of these in the list of possible faults, from 1; 0 when none is. */
function placeOf(belief: Belief, wanted: readonly string[]): number {
  const patterns = wanted.map(
    (name) => new RegExp(`^${name.replace(/[.+?^${}()|[\]\\]/g, "\\$&").replaceAll("*", ".*")}$`),
  );
  return belief.parts.findIndex(({ part }) => patterns.some((pattern) => pattern.test(part))) + 1;
}

describe("the fault comes out where a technician expects it", () => {
  it.each(expected)(
    "$row, $job: among the first $among",
    ({ job, among, parts }) => {
      const belief = believed(job);
      const place = placeOf(belief, parts);
      const list = belief.parts.slice(0, 5).map(({ part, p }) => `${part} ${p.toFixed(2)}`);
      expect(place, `possible faults were ${list.join(", ")}`).toBeGreaterThan(0);
      expect(place, `possible faults were ${list.join(", ")}`).toBeLessThanOrEqual(among);
    },
    60_000,
  );

  it("has a job for each of the 21 rows", () => {
    const rows = new Set(expected.map(({ row }) => row));
    for (let n = 1; n <= 21; n++) expect(rows, `row T${n}`).toContain(`T${n}`);
  });
});
