// npx tsx bench/refine.bench.ts [work] [files that match] — the next step of every row job and example, quick and
// searched to the end: how often another step is told, and what it saves. Money is that of the table searched.
import { readdirSync } from "node:fs";
import { openJob } from "../test/rows/jobs.ts";

const work = Number(process.argv[2] ?? 300);
const only = new RegExp(process.argv[3] ?? "");
const less = { pairsAtMost: 2000, candidatesAtMost: 3 };

const files = ["examples", "test/rows"]
  .flatMap((folder) => readdirSync(folder).map((file) => `${folder}/${file}`))
  .filter((file) => file.endsWith(".yaml") && !file.includes("expected") && only.test(file));

let choices = 0;
let exact = 0;
const gains: number[] = [];
const shortfalls: number[] = [];
const gaps: number[] = [];
for (const file of files) {
  const { refined, steps } = openJob(file, less).plan(work);
  if (refined === undefined) {
    console.log(`${file}: no choice (${steps[0]?.do ?? "nothing left"})`);
    continue;
  }
  choices++;
  if (refined.exact) exact++;
  const { expectedCost, lowerBound, quick } = refined;
  const gain = quick.expectedCost / expectedCost - 1;
  if (refined.differs) gains.push(gain);
  shortfalls.push(gain);
  gaps.push(expectedCost / lowerBound - 1);
  console.log(
    `${file}: ${refined.causes} x ${refined.tests} + ${refined.remedies}, ${expectedCost.toFixed(1)} (bound ${lowerBound.toFixed(1)}), quick ${quick.expectedCost.toFixed(1)} ${refined.differs ? `${quick.step} -> ${refined.step}` : refined.step}`,
  );
}

const mean = (list: readonly number[]): number => list.reduce((sum, x) => sum + x, 0) / Math.max(1, list.length);
const percent = (x: number): string => `${(100 * x).toFixed(1)} %`;
console.log(
  `${choices} choices, work ${work}: another step in ${gains.length}, there ${percent(mean(gains))} less on average, at most ${percent(Math.max(0, ...gains))}; over all the quick step costs ${percent(mean(shortfalls))} more`,
);
console.log(
  `proved ${exact}; over its own bound ${percent(mean(gaps))} on average, at most ${percent(Math.max(0, ...gaps))}`,
);
