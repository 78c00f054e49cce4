import { type Interval, ratioOf, shareOf } from "./tally.ts";
import type { Played, Strategy } from "./trial.ts";

/** What many jobs of one strategy came to; every figure with its interval of 95 %. */
export interface StrategySummary {
  readonly strategy: Strategy;
  readonly jobs: number;
  readonly money: Interval;
  readonly minutes: Interval;
  /** New parts fitted a job, and of all parts fitted the share that replaced a good one. */
  readonly fitted: Interval;
  readonly wrong: Interval;
  /** Share of the jobs in which a good part was replaced. */
  readonly wrongJobs: Interval;
  /** Good connections remade a job: work for nothing, and no part. */
  readonly remade: Interval;
  readonly unsolved: Interval;
  readonly cameBack: Interval;
  readonly secondVisits: Interval;
  /** Readings under power a job. */
  readonly closed: Interval;
  readonly clipped: Interval;
  readonly handheld: Interval;
}

/** All jobs done with one sheet. */
export interface SheetSummary {
  readonly strategies: readonly StrategySummary[];
  /** Money saved by the plan against each other strategy on the same machines, as a share of the other's. */
  readonly saved: readonly { readonly against: Strategy; readonly share: Interval }[];
  /** Of the plan: mean odds, at the end, of something not on this sheet. */
  readonly notOnThisSheet: Interval;
  /** Of the jobs that the plan gave up: share in which it was known what was wrong, and so was not worth mending. */
  readonly knownButLeft: Interval;
}

export interface Summary {
  readonly machines: number;
  readonly right: SheetSummary;
  /** The same machines with a wrong sheet, and by how much money a job came dearer, as a share of that with the right one. */
  readonly wrong?: SheetSummary & {
    readonly dearer: readonly { readonly strategy: Strategy; readonly share: Interval }[];
  };
  /** Of the plan with the right sheet: the least odds a true cause had under honest answers, and how often under 1e-6. */
  readonly leastTrue: number;
  readonly excluded: number;
}

/** With these odds it is known what is wrong. */
const KNOWN = 0.5;
/** A true cause with less odds than this was as good as excluded. */
const EXCLUDED = 1e-6;

/** Sums up all jobs, in whatever order they come. */
export function summaryOf(all: readonly Played[]): Summary {
  const right = all.filter(({ sheet }) => sheet === "right");
  const wrong = all.filter(({ sheet }) => sheet === "wrong");
  const least = right.map(({ leastTrue = 1 }) => leastTrue);
  const summary = summaryOfSheet(right);
  return {
    machines: new Set(all.map(({ machine }) => machine)).size,
    right: summary,
    ...(wrong.length === 0
      ? {}
      : {
          wrong: {
            ...summaryOfSheet(wrong),
            dearer: summary.strategies.map(({ strategy }) => ({
              strategy,
              share: negated(less(jobsOf(right, strategy), jobsOf(wrong, strategy))),
            })),
          },
        }),
    leastTrue: least.reduce((a, b) => Math.min(a, b), 1),
    excluded: least.filter((p) => p < EXCLUDED).length,
  };
}

function summaryOfSheet(all: readonly Played[]): SheetSummary {
  const strategies = [...new Set(all.map(({ strategy }) => strategy))];
  const plan = jobsOf(all, "plan");
  const left = plan.filter(({ bill }) => !bill.mended);
  return {
    strategies: strategies.map((strategy) => summaryOfOne(strategy, jobsOf(all, strategy))),
    saved:
      plan.length === 0
        ? []
        : strategies
            .filter((strategy) => strategy !== "plan")
            .map((against) => ({ against, share: less(jobsOf(all, against), plan) })),
    notOnThisSheet: mean(plan, ({ notOnThisSheet = 0 }) => notOnThisSheet),
    knownButLeft: shareOf(left.filter(({ leastAtEnd = 0 }) => leastAtEnd > KNOWN).length, left.length),
  };
}

function summaryOfOne(strategy: Strategy, jobs: readonly Played[]): StrategySummary {
  const share = (which: (job: Played) => boolean): Interval => shareOf(jobs.filter(which).length, jobs.length);
  return {
    strategy,
    jobs: jobs.length,
    money: mean(jobs, ({ bill }) => bill.money),
    minutes: mean(jobs, ({ bill }) => bill.minutes),
    fitted: mean(jobs, ({ bill }) => bill.fitted),
    // Parts of one job are no independent trials: the spread is taken between machines.
    wrong: ratioOf(jobs.map(({ bill }) => ({ top: bill.wrong, bottom: bill.fitted }))),
    wrongJobs: share(({ bill }) => bill.wrong > 0),
    remade: mean(jobs, ({ bill }) => bill.remade),
    unsolved: share(({ bill }) => !bill.mended),
    cameBack: share(({ bill }) => bill.cameBack),
    secondVisits: mean(jobs, ({ bill }) => bill.secondVisits),
    closed: mean(jobs, ({ bill }) => bill.live.closed),
    clipped: mean(jobs, ({ bill }) => bill.live.clipped),
    handheld: mean(jobs, ({ bill }) => bill.live.handheld),
  };
}

/** By how much less `these` cost than `those`, machine by machine, so that the luck of the draw falls out. */
function less(those: readonly Played[], these: readonly Played[]): Interval {
  const other = new Map(these.map((job) => [job.machine, job.bill.money]));
  const pairs = those.flatMap((job) => {
    const money = other.get(job.machine);
    return money === undefined ? [] : [{ block: job.block, top: job.bill.money - money, bottom: job.bill.money }];
  });
  return ratioOf(byBlock(pairs));
}

function negated({ value, lo, hi }: Interval): Interval {
  return { value: -value, lo: -hi, hi: -lo };
}

function mean(jobs: readonly Played[], of: (job: Played) => number): Interval {
  return ratioOf(byBlock(jobs.map((job) => ({ block: job.block, top: of(job), bottom: 1 }))));
}

function byBlock(all: readonly { readonly block: number; readonly top: number; readonly bottom: number }[]) {
  const sums = new Map<number, { top: number; bottom: number }>();
  for (const { block, top, bottom } of all) {
    const known = sums.get(block) ?? { top: 0, bottom: 0 };
    known.top += top;
    known.bottom += bottom;
    sums.set(block, known);
  }
  return [...sums.values()];
}

function jobsOf(all: readonly Played[], strategy: Strategy): readonly Played[] {
  return all.filter((job) => job.strategy === strategy).sort((a, b) => a.machine - b.machine);
}
