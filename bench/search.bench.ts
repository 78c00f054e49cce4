// npx tsx bench/search.bench.ts [small] — the planner of plain tables: how far above its own proven bound by kind of table,
// what the first action loses when little work is allowed, and processor time. Tables are drawn from seeds; every policy
// is walked from the table alone first, by code that shares nothing with the planner.
import { askPlan, type PlanAnswer } from "../src/core/search/index.ts";
import { drawTable, type Kind, type Sizes } from "../test/oracle/plan-tables.ts";
import { type Table, walkPolicy } from "../test/oracle/plan-walker.ts";
import { promise } from "./promise.ts";

const few = process.argv.includes("small");
const kinds: readonly Kind[] = ["crisp", "half", "misread", "appliance", "noisy"];

interface Run {
  readonly answer: PlanAnswer;
  readonly seconds: number;
}

function solve(table: Table, work?: number): Run {
  const begun = process.cpuUsage();
  const answer = askPlan(table, { policy: true, ...(work === undefined ? {} : { work }) });
  const { user, system } = process.cpuUsage(begun);
  if (!answer.ok || answer.value.policy === undefined) throw new Error("a drawn table was refused");
  const walked = walkPolicy(table, answer.value.policy);
  if (Math.abs(walked - answer.value.expectedCost) > 1e-9 * walked)
    throw new Error(`walked ${walked}, claimed ${answer.value.expectedCost}`);
  return { answer: answer.value, seconds: (user + system) / 1e6 };
}

const mean = (numbers: readonly number[]): number => numbers.reduce((sum, x) => sum + x, 0) / numbers.length;
const percent = (numbers: readonly number[], digits = 3): string =>
  `${(100 * mean(numbers)).toFixed(digits)} / ${(100 * Math.max(...numbers)).toFixed(digits)} %`;
const time = (runs: readonly Run[]): string =>
  `${mean(runs.map(({ seconds }) => seconds)).toFixed(2)} / ${Math.max(...runs.map(({ seconds }) => seconds)).toFixed(2)} s`;
const over = ({ answer }: Run): number => answer.expectedCost / answer.lowerBound - 1;

function say(name: string, ...figures: readonly string[]): void {
  console.log(`${name.padEnd(44)} ${figures.join("   ")}`);
}

const nine = (seed: number): Sizes => ({ causes: 9, tests: 10, outcomes: 2, groups: seed % 4, stop: seed % 2 === 0 });
const twenty = (seed: number): Sizes => ({
  causes: 20,
  tests: 24,
  outcomes: 2,
  groups: 1 + (seed % 4),
  stop: seed % 2 === 0,
});

solve(drawTable("half", { causes: 5, tests: 5, outcomes: 2, groups: 1, stop: true }, 99));

console.log("9 causes x 10 tests: over its own bound, processor time (mean / most)");
const exact: { readonly table: Table; readonly best: number }[] = [];
for (const kind of kinds) {
  const tables = Array.from({ length: few ? 2 : 4 }, (_, seed) => drawTable(kind, nine(seed), seed));
  const runs = tables.map((table) => solve(table));
  say(
    `  ${kind}: proved ${runs.filter(({ answer }) => answer.exact).length} of ${runs.length}`,
    percent(runs.map(over), 7),
    time(runs),
  );
  runs.forEach(({ answer }, t) => {
    if (answer.exact) exact.push({ table: tables[t], best: answer.expectedCost });
  });
}

console.log("9 x 10, whole policy as printed when work is short: over the optimum, processor time (mean / most)");
for (const work of [1, 30, 100, 300, 1000, 3000]) {
  const runs = exact.map(({ table }) => solve(table, work));
  say(`  work ${work}`, percent(runs.map(({ answer }, t) => answer.expectedCost / exact[t].best - 1)), time(runs));
}

console.log("9 x 10, first action when work is short, all after it played at best: over the optimum (mean / most)");
for (const work of [1, 30, 100, 300, 1000]) {
  const losses = exact.map(({ table, best }) => {
    const { first } = solve(table, work).answer;
    return costAfter(table, first) / best - 1;
  });
  say(`  work ${work}`, percent(losses, 4));
}

// Work that is done well within the time in which a person sees no wait.
const prompt = 30;
const firsts = kinds.flatMap((kind) =>
  [0, 1].flatMap((seed) => [
    solve(drawTable(kind, nine(seed), seed), prompt),
    solve(drawTable(kind, twenty(seed), seed), prompt),
  ]),
);
promise({
  what: `first action of 9 x 10 and 20 x 24, work ${prompt}, slowest of ${firsts.length}`,
  measured: 1000 * Math.max(...firsts.map(({ seconds }) => seconds)),
  unit: "ms",
  atMost: 100,
});

console.log("20 causes x 24 tests, work 20000: over its own bound, processor time (mean / most)");
for (const kind of kinds) {
  const runs = Array.from({ length: few ? 1 : 2 }, (_, seed) => solve(drawTable(kind, twenty(seed), seed), 20_000));
  say(
    `  ${kind}: proved ${runs.filter(({ answer }) => answer.exact).length} of ${runs.length}`,
    percent(runs.map(over), 4),
    time(runs),
  );
}

/** Least expected cost of a first action: the action, and an optimal plan of what each outcome leaves. */
function costAfter(table: Table, first: PlanAnswer["first"]): number {
  if (first.do === "stop") return table.stop?.cost ?? Number.NaN;
  const list: readonly { readonly id: string }[] = first.do === "test" ? table.tests : table.causes;
  const at = list.findIndex(({ id }) => id === first.id);
  const test = table.tests[at];
  const repair = table.causes[at]?.repair;
  const group = (first.do === "test" ? test.group : repair.group) ?? null;
  const access = table.groups?.find(({ id }) => id === group)?.cost ?? 0;
  const groups = (table.groups ?? []).map((g) => (g.id === group ? { ...g, cost: 0 } : g));
  const left = { ...table, groups, tests: first.do === "test" ? table.tests.filter((_, j) => j !== at) : table.tests };
  const rest = (weight: (id: string, prior: number) => number): number => {
    const weights = table.causes.map(({ id, prior }) => weight(id, prior));
    const total = weights.reduce((sum, w) => sum + w, 0);
    if (total === 0) return 0;
    const causes = table.causes.map((cause, c) => ({ ...cause, prior: weights[c] / total }));
    return total * solve({ ...left, causes }).answer.expectedCost;
  };
  if (first.do === "repair") return repair.cost + access + rest((id, prior) => (id === first.id ? 0 : prior));
  const after = Array.from({ length: test.outcomes }, (_, o) => rest((id, prior) => prior * test.chance[id][o]));
  return test.cost + access + after.reduce((sum, cost) => sum + cost, 0);
}
