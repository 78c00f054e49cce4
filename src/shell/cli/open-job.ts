import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import {
  believeJob,
  foldJob,
  type Job,
  type JobState,
  knownAnswers,
  knownDifferences,
  readJob,
  withSlotNames,
} from "../../core/ledger/index.ts";
import type { Meter } from "../../core/meter/index.ts";
import { nextSteps, type Plan } from "../../core/plan/index.ts";
import type { Shop } from "../../core/remedy/index.ts";
import { branchSheet, type Library, type Sheet, slotWords } from "../../core/sheet/index.ts";
import type { Observation } from "../../core/sign/index.ts";
import { type Belief, type ForeseenCase, openCase } from "../../core/suspect/index.ts";
import { readText } from "./files.ts";
import { sheetNamed, shippedLibrary, shippedMeters, shopNamed } from "./library.ts";
import { need } from "./outcome.ts";

/** A job file carried through the whole straight line: sheet, case, observations, odds. */
export interface OpenJob {
  readonly job: Job;
  readonly sheet: Sheet;
  readonly shop: Shop;
  readonly meters: ReadonlyMap<string, Meter>;
  readonly case: ForeseenCase;
  readonly state: JobState;
  readonly belief: Belief;
  /** What moved the odds since the last repair: all that `case` was told. */
  readonly observations: readonly Observation[];
}

/** Reads a job and everything it names; ends the command with every issue when something is wrong. */
export function openJob(file: string): OpenJob {
  const written = need(readJob(need(readText(file)), file));
  const library = shippedLibrary();
  const meters = shippedMeters();
  const shop = shopNamed(written.shop);
  const sheet = sheetOf(written, file, library);
  const job = need(withSlotNames(written, slotWords(sheet), file));
  const opened = need(
    openCase({
      sheet,
      library,
      answers: knownAnswers(job),
      differences: knownDifferences(job),
      ...(job.machine.ageYears === undefined ? {} : { ageYears: job.machine.ageYears }),
    }),
    file,
  );
  const machines = opened.candidates.map(({ machine }) => machine);
  const state = need(foldJob(job, machines, shop, meters, file), file);
  return { job, sheet, shop, meters, state, ...believeJob(opened, state, shop) };
}

/** The plan for an open job, at the machine or on the telephone. */
export function planOf(open: OpenJob, where: "telephone" | "machine"): Plan {
  const { job, sheet, shop, meters, state, belief } = open;
  return nextSteps(open.case, belief, state.work, shop, {
    meters,
    where,
    slots: slotWords(sheet),
    ...(job.machine.ageYears === undefined ? {} : { ageYears: job.machine.ageYears }),
    ...(job.machine.replacementPrice === undefined ? {} : { replacementPrice: job.machine.replacementPrice }),
    ...(job.customer.authority === undefined ? {} : { authority: job.customer.authority }),
  });
}

/** A sheet beside the job goes before a shipped one of the same name. */
function sheetOf(job: Job, file: string, library: Library): Sheet {
  if (job.sheet.kind === "branch") return need(branchSheet(job.sheet.kinds, library), file);
  const beside = join(dirname(file), `${job.sheet.name}.yaml`);
  return sheetNamed(existsSync(beside) ? beside : job.sheet.name, library);
}
