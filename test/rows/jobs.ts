import { readdirSync, readFileSync } from "node:fs";
import type { Checked } from "../../src/core/issue/index.ts";
import { sentence } from "../../src/core/issue/index.ts";
import {
  believeJob,
  foldJob,
  type Job,
  knownAnswers,
  knownDifferences,
  readJob,
  type WorkedJob,
  workOut,
} from "../../src/core/ledger/index.ts";
import { type Meter, readMeter } from "../../src/core/meter/index.ts";
import { nextSteps, type Plan, type PlanCase, type WorkState } from "../../src/core/plan/index.ts";
import { readShop } from "../../src/core/remedy/index.ts";
import { branchSheet, slotWords } from "../../src/core/sheet/index.ts";
import { type Belief, openCase } from "../../src/core/suspect/index.ts";
import { readShipped } from "./dryer.ts";

const root = new URL("../../", import.meta.url);
const text = (path: string): string => readFileSync(new URL(path, root), "utf8");

export function must<T>(checked: Checked<T>): T {
  if (!checked.ok) throw new Error(checked.issues.map(sentence).join("\n"));
  return checked.value;
}

export const meters: ReadonlyMap<string, Meter> = new Map(
  readdirSync(new URL("data/meters/", root))
    .filter((file) => file.endsWith(".yaml"))
    .map((file) => [file.replace(".yaml", ""), must(readMeter(text(`data/meters/${file}`), file))]),
);
export const shop = must(readShop(text("data/costs/demo-shop.yaml"), "demo-shop", "demo-shop.yaml"));
const families = new Map<string, ReturnType<typeof readShipped>>();

/** A shipped family, read once. */
function family(sheet: string): ReturnType<typeof readShipped> {
  const read = families.get(sheet) ?? readShipped(sheet);
  families.set(sheet, read);
  return read;
}

/** Less than a job looks at, where many cases are opened: pairs of faults, ways of filling open slots. */
interface Bounds {
  readonly pairsAtMost?: number;
  readonly candidatesAtMost?: number;
}

/** A job file of this repository carried to its odds, and on demand to its plan. */
export function openJob(
  file: string,
  bounds: Bounds = {},
): {
  readonly case: PlanCase;
  readonly belief: Belief;
  readonly work: WorkState;
  readonly plan: (refineWork?: number) => Plan;
} {
  const job = must(readJob(text(file), file));
  if (job.sheet.kind !== "family") throw new Error(`${file} is a job on a branch`);
  const machine = family(job.sheet.name);
  const age = job.machine.ageYears === undefined ? {} : { ageYears: job.machine.ageYears };
  const ask = { ...machine, ...age, ...bounds, answers: knownAnswers(job), differences: knownDifferences(job) };
  const opened = must(openCase(ask));
  const machines = opened.candidates.map(({ machine }) => machine);
  const state = must(foldJob(job, machines, shop, meters, file));
  const { case: now, belief } = believeJob(opened, state, shop);
  const authority = job.customer.authority === undefined ? {} : { authority: job.customer.authority };
  const options = { ...age, ...authority, meters, slots: slotWords(machine.sheet) };
  return {
    case: now,
    belief,
    work: state.work,
    plan: (refineWork) =>
      nextSteps(now, belief, state.work, shop, { ...options, ...(refineWork === undefined ? {} : { refineWork }) }),
  };
}

function groundOf(named: Job["sheet"]): ReturnType<typeof readShipped> {
  if (named.kind === "family") return family(named.name);
  const { library } = family("tumble-dryer");
  return { library, sheet: must(branchSheet(named.kinds, library)) };
}

/** A job on a shipped family or on a branch, written out, worked out as the command does within these bounds. */
export function workedJob(written: string, bounds: Bounds = {}): WorkedJob {
  const job = must(readJob(written, "job.yaml"));
  const { sheet, library } = groundOf(job.sheet);
  const open = (named: typeof job) => openCase({ sheet, library, ...bounds, answers: knownAnswers(named) });
  return must(workOut(job, { sheet, library, shop, meters }, "job.yaml", open));
}
