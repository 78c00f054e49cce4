import { type Interval, meanOf, shareOf } from "./tally.ts";
import type { Played, Strategy } from "./trial.ts";

/** What many jobs of one strategy came to; every figure with its interval of 95 %. */
export interface StrategySummary {
  readonly strategy: Strategy;
  readonly jobs: number;
  readonly money: Interval;
  readonly minutes: Interval;
  /** New parts fitted a job, and the share of them that replaced a good one. */
  readonly fitted: Interval;
  readonly wrong: Interval;
  readonly unsolved: Interval;
  readonly cameBack: Interval;
  /** Readings under power a job. */
  readonly closed: Interval;
  readonly clipped: Interval;
  readonly handheld: Interval;
}

export interface Summary {
  readonly strategies: readonly StrategySummary[];
  /** Mean money saved against each other strategy on the same machines, as a share of the other's. */
  readonly saved: readonly { readonly against: Strategy; readonly share: Interval }[];
  /** Of the plan: the least odds a true cause ever had under honest answers, and how often under one in a million. */
  readonly leastTrue: number;
  readonly excluded: Interval;
  /** Of the plan: mean odds, at the end, of something not on this sheet. */
  readonly notOnThisSheet: Interval;
}

/** A true cause with less odds than this was as good as excluded. */
const EXCLUDED = 1e-6;

/** Sums up all jobs, in whatever order they come. */
export function summaryOf(all: readonly Played[]): Summary {
  const strategies = [...new Set(all.map(({ strategy }) => strategy))];
  const plan = jobsOf(all, "plan");
  return {
    strategies: strategies.map((strategy) => summaryOfOne(strategy, jobsOf(all, strategy))),
    saved: plan.length === 0 ? [] : strategies.filter((one) => one !== "plan").map((one) => savedAgainst(all, one)),
    leastTrue: plan.reduce((least, { leastTrue = 1 }) => Math.min(least, leastTrue), 1),
    excluded: shareOf(plan.filter(({ leastTrue = 1 }) => leastTrue < EXCLUDED).length, plan.length),
    notOnThisSheet: meanOf(byGroup(plan, ({ notOnThisSheet = 0 }) => notOnThisSheet)),
  };
}

function summaryOfOne(strategy: Strategy, jobs: readonly Played[]): StrategySummary {
  const mean = (of: (job: Played) => number): Interval => meanOf(byGroup(jobs, of));
  const count = (of: (job: Played) => number): number => jobs.reduce((sum, job) => sum + of(job), 0);
  return {
    strategy,
    jobs: jobs.length,
    money: mean(({ bill }) => bill.money),
    minutes: mean(({ bill }) => bill.minutes),
    fitted: mean(({ bill }) => bill.fitted),
    wrong: shareOf(
      count(({ bill }) => bill.wrong),
      count(({ bill }) => bill.fitted),
    ),
    unsolved: shareOf(
      count(({ bill }) => (bill.mended ? 0 : 1)),
      jobs.length,
    ),
    cameBack: shareOf(
      count(({ bill }) => (bill.cameBack ? 1 : 0)),
      jobs.length,
    ),
    closed: mean(({ bill }) => bill.live.closed),
    clipped: mean(({ bill }) => bill.live.clipped),
    handheld: mean(({ bill }) => bill.live.handheld),
  };
}

/** On the same machines, so that the luck of the draw falls out; the other's mean is taken as known. */
function savedAgainst(all: readonly Played[], against: Strategy): Summary["saved"][number] {
  const others = new Map(jobsOf(all, against).map((job) => [job.machine, job.bill.money]));
  const plan = jobsOf(all, "plan").filter(({ machine }) => others.has(machine));
  const mean = plan.reduce((sum, { machine }) => sum + (others.get(machine) ?? 0), 0) / plan.length;
  const saved = meanOf(byGroup(plan, ({ machine, bill }) => ((others.get(machine) ?? 0) - bill.money) / mean));
  return { against, share: saved };
}

function jobsOf(all: readonly Played[], strategy: Strategy): readonly Played[] {
  return all.filter((job) => job.strategy === strategy).sort((a, b) => a.machine - b.machine);
}

function byGroup(jobs: readonly Played[], of: (job: Played) => number): readonly (readonly number[])[] {
  const groups = new Map<number, number[]>();
  for (const job of jobs) groups.set(job.group, [...(groups.get(job.group) ?? []), of(job)]);
  return [...groups.values()];
}
