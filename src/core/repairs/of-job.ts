import { type Checked, type Issue, IssueList } from "../issue/index.ts";
import { accountOf, type Job, withdrawnEvents } from "../ledger/index.ts";
import { countryOfThree } from "./country.ts";
import { type Barrier, type Category, type Repair, STATUSES, type Status } from "./repair.ts";

/** What a job's events do not say of it. */
export interface RepairFacts {
  /** Whose job it was: the shop's name. */
  readonly provider: string;
  /** ISO 3166-1, two letters. */
  readonly country?: string;
  /** Day of the visit, ISO 8601, where the job tells none; where neither does, that of the last paper handed over. */
  readonly date?: string;
  /** What it is, in the shop's own words. */
  readonly appliance: string;
  readonly category?: Category;
  /** Why it came to its end: told only where the machine is given up. */
  readonly barrier?: Barrier;
}

/** Families whose category in the standard is plain. */
const FAMILIES: ReadonlyMap<string, Category> = new Map([
  ["dishwasher", "Large home electrical"],
  ["tumble-dryer", "Large home electrical"],
  ["washing-machine", "Large home electrical"],
]);

/**
 * A finished job as one attempt at a repair: mended is "Fixed"; a repair declined, or one that waits for a part, is "Repairable"; a
 * machine given up is "End of life" with its one barrier; anything else is "Unknown".
 *
 * @returns the repair, or what the standard asks for and neither the job nor the shop tells
 */
export function repairOfJob(job: Job, facts: RepairFacts): Checked<Repair> {
  const issues = new IssueList();
  const outcome = outcomeOf(job);
  const lacks = (what: string, found: string, expected: string, hint: string): Issue => ({
    code: `repairs.job-${what}`,
    severity: "error",
    at: ["job", job.id],
    found,
    expected,
    hint,
  });
  const id = idOf(facts.provider, job.id);
  if (id === undefined) {
    issues.add(
      lacks(
        "id",
        `"${facts.provider}", "${job.id}"`,
        "a shop's name with letters, a job's number with digits",
        "Give the job a number.",
      ),
    );
  }
  const country = facts.country === undefined ? undefined : countryOfThree(facts.country);
  if (country === undefined) {
    const found = facts.country === undefined ? "no country" : `"${facts.country}"`;
    issues.add(
      lacks("country", found, "the shop's country as two letters", "Write it under trading: in the cost file."),
    );
  }
  const date = job.date ?? facts.date ?? accountOf(job).issued.at(-1)?.date;
  if (date === undefined)
    issues.add(lacks("date", "no day", "the day of the visit, 2026-03-04", "Name it with --date."));
  if (outcome === "Fixed" && facts.barrier !== undefined) {
    issues.add(
      lacks(
        "barrier",
        `"${facts.barrier}" on a mended machine`,
        "a barrier only where it is given up",
        "Leave it out.",
      ),
    );
  }
  const category = facts.category ?? (job.sheet.kind === "family" ? FAMILIES.get(job.sheet.name) : undefined);
  return issues.conclude(() => ({
    id: id ?? "",
    provider: facts.provider,
    ...(country === undefined ? {} : { country }),
    partnerCategory: facts.appliance,
    ...(category === undefined ? {} : { category }),
    ...(job.machine.ageYears === undefined ? {} : { ageYears: Math.round(job.machine.ageYears * 10) / 10 }),
    status: facts.barrier === undefined ? outcome : "End of life",
    ...(facts.barrier === undefined ? {} : { barrier: facts.barrier }),
    ...(date === undefined ? {} : { date }),
    problem: job.complaint,
  }));
}

/** It could be mended, and is not: declined, or a part or an answer is waited for. */
const WAITS: ReadonlySet<string> = new Set(["declined", "ordered", "left", "notice"]);

/** What became of it, by the last word of its events. */
function outcomeOf(job: Job): Exclude<Status, "End of life"> {
  const withdrawn = withdrawnEvents(job);
  let outcome: Exclude<Status, "End of life"> = STATUSES[0];
  for (const event of job.events) {
    if (withdrawn.has(event.id)) continue;
    if (event.kind === "did") outcome = event.worked === true ? "Fixed" : "Unknown";
    if (WAITS.has(event.kind)) outcome = "Repairable";
  }
  return outcome;
}

/** `ferrybank-260101`: the shop's first word, and the digits of the job's number. */
function idOf(provider: string, job: string): string | undefined {
  const name = /[a-z]+/.exec(provider.toLowerCase())?.[0];
  const digits = job.replaceAll(/\D/g, "");
  return name === undefined || digits === "" ? undefined : `${name}-${digits}`;
}
