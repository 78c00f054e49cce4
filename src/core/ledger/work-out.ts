import { accept, type Checked } from "../issue/index.ts";
import type { Meter } from "../meter/index.ts";
import { type Pieces, toItsEnd } from "../pace/index.ts";
import { findingSteps, type Plan } from "../plan/index.ts";
import type { Shop } from "../remedy/index.ts";
import { type Library, type Sheet, slotWords } from "../sheet/index.ts";
import { type CaseAsk, type ForeseenCase, type KeptForesights, openCase, openingCase } from "../suspect/index.ts";
import { accountOf } from "./account.ts";
import { type BelievedJob, believeJob } from "./believe-job.ts";
import { foldJob, type JobState } from "./fold-job.ts";
import type { Job } from "./job.ts";
import { knownAnswers, knownDifferences, withSlotNames } from "./known.ts";

/** What a job names, read beforehand: its sheet, the kinds it is made of, the shop's costs, the instruments. */
export interface JobGround {
  readonly sheet: Sheet;
  readonly library: Library;
  readonly shop: Shop;
  readonly meters: ReadonlyMap<string, Meter>;
}

/** A job carried through the whole straight line: sheet, case, observations, odds. */
export interface WorkedJob extends JobGround, BelievedJob {
  readonly job: Job;
  readonly state: JobState;
}

/** The case a job begins with: every fault of every machine that its answers allow, before anything was seen. */
export function openedCase(job: Job, ground: JobGround): Checked<ForeseenCase> {
  return openCase(caseAsk(job, ground));
}

/**
 * The same in pieces.
 *
 * @param kept  where what one case has worked out is kept for the next
 */
export function openingJob(job: Job, ground: JobGround, kept: KeptForesights): Pieces<Checked<ForeseenCase>> {
  return openingCase({ ...caseAsk(job, ground), kept });
}

function caseAsk(job: Job, { sheet, library }: JobGround): CaseAsk {
  return {
    sheet,
    library,
    answers: knownAnswers(job),
    differences: knownDifferences(job),
    ...(job.machine.ageYears === undefined ? {} : { ageYears: job.machine.ageYears }),
  };
}

type Believe = (opened: ForeseenCase, state: JobState, shop: Shop) => BelievedJob;

/**
 * Works a job out: opens its case, folds its events, believes what they say.
 *
 * @param file  as the user named it, for issues
 * @param open  how its case is opened
 * @param believe  how it is believed
 * @returns     the job worked out, or everything in it that the sheet does not know
 */
export function workOut(
  written: Job,
  ground: JobGround,
  file?: string,
  open = openedCase,
  believe: Believe = believeJob,
): Checked<WorkedJob> {
  const named = withSlotNames(written, slotWords(ground.sheet), file);
  if (!named.ok) return named;
  const opened = open(named.value, ground);
  return opened.ok ? toItsEnd(believing(named.value, ground, opened, believe, file)) : opened;
}

/**
 * The same in pieces, for a caller that works one job out again and again.
 *
 * @param open     how its case is opened; such a caller keeps what it was given
 * @param believe  how it is believed; such a caller takes that of `KeptRepairs`
 */
export function* workingOut(
  written: Job,
  ground: JobGround,
  open: (job: Job) => Pieces<Checked<ForeseenCase>>,
  believe: Believe,
): Pieces<Checked<WorkedJob>> {
  const named = withSlotNames(written, slotWords(ground.sheet));
  if (!named.ok) return named;
  const opened = yield* open(named.value);
  return opened.ok ? yield* believing(named.value, ground, opened, believe) : opened;
}

function* believing(
  job: Job,
  ground: JobGround,
  opened: Checked<ForeseenCase> & { readonly ok: true },
  believe: Believe,
  file?: string,
): Pieces<Checked<WorkedJob>> {
  const the = opened.value;
  const machines = the.candidates.map(({ machine }) => machine);
  const state = foldJob(job, machines, ground.shop, ground.meters, file);
  if (!state.ok) return state;
  yield* the.foreseeAhead(state.value.observations.map(({ observation }) => observation));
  return accept({ ...ground, job, state: state.value, ...believe(the, state.value, ground.shop) }, [
    ...opened.warnings,
    ...state.warnings,
  ]);
}

/**
 * What to do next on a job that was worked out, at the machine or on the telephone.
 *
 * @param refineWork  search the choice to its end, with so much work: states looked into
 */
export function planOf(worked: WorkedJob, where: "telephone" | "machine", refineWork?: number): Plan {
  return toItsEnd(planning(worked, where, refineWork));
}

/** The same in pieces. */
export function planning(worked: WorkedJob, where: "telephone" | "machine", refineWork?: number): Pieces<Plan> {
  const { job, sheet, shop, meters, state, belief } = worked;
  const moot = mootSigns(worked);
  const { limit } = accountOf(job);
  return findingSteps(worked.case, belief, state.work, shop, {
    meters,
    where,
    moot,
    ...(refineWork === undefined ? {} : { refineWork }),
    slots: slotWords(sheet),
    ...(job.machine.ageYears === undefined ? {} : { ageYears: job.machine.ageYears }),
    ...(job.machine.replacementPrice === undefined ? {} : { replacementPrice: job.machine.replacementPrice }),
    ...(limit === undefined ? {} : { authority: limit.amount }),
  });
}

/** Signs that the last answer to another one leaves nothing to ask about: a dark display shows no message. */
function mootSigns({ case: the, observations }: WorkedJob): ReadonlySet<string> {
  const said = new Map(observations.flatMap((one) => (one.kind === "sign" ? [[one.sign, one.answer] as const] : [])));
  const signs = the.candidates.flatMap(({ machine }) => machine.signs);
  const isMoot = ({ unless = [] }: (typeof signs)[number]): boolean =>
    unless.some(([sign, answers]) => answers.includes(said.get(sign) ?? ""));
  return new Set(signs.filter(isMoot).map(({ id }) => id));
}
