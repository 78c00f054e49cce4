import type { WorkedJob } from "../../core/ledger/index.ts";
import type { Plan } from "../../core/plan/index.ts";
import { minutesInWords } from "./odds.ts";
import { stateInWords } from "./step.ts";

/** The head of everything about a job: what it is, and whether the machine is live. */
export function headingInWords({ job, sheet, state }: WorkedJob, plan: Plan): string[] {
  const age = job.machine.ageYears === undefined ? "" : `, ${job.machine.ageYears} years`;
  return [
    `Job ${job.id}: "${job.complaint}"`,
    `${sheet.title}${age} · ${minutesInWords(state.work.minutes)} so far · ${stateInWords(plan)}`,
  ];
}
