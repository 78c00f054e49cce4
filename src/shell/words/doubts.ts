import type { WorkedJob } from "../../core/ledger/index.ts";
import type { Plan } from "../../core/plan/index.ts";
import { observationInWords } from "./observation.ts";
import { oddsInWords } from "./odds.ts";
import { width, wrap } from "./wrap.ts";

const mostReasons = 4;

/** What sits worst with all the rest, when it does. */
export function doubtsInWords({ belief, observations, case: the }: WorkedJob): string[] {
  const { worst } = belief;
  const odd = worst === undefined ? undefined : observations[worst.observation];
  if (worst === undefined || odd === undefined || !worst.contradicts) return [];
  const signs = the.candidates[0]?.machine.signs ?? [];
  return [
    "",
    ...wrap(
      `Nothing explains everything. This sits worst with all the rest: ${observationInWords(odd, signs)}.`,
      width,
      "  ! ",
      "    ",
    ),
    ...wrap(
      "Check it first: the right two points, a good contact of the tips, the range, and whether this is the right sheet.",
      width,
      "    ",
    ),
  ];
}

/** What has to be done or answered before anything else. */
export function duesInWords(worked: WorkedJob, plan: Plan): string[] {
  const lines: string[] = [];
  if (plan.energy === "plug out" && !plan.provedDead && worked.state.work.open.size > 0) {
    lines.push("Covers are open and it was not proved dead: two-pole tester first (`- isolated: two-pole tester`).");
  }
  for (const { protector, says, reasons } of plan.unanswered) {
    const told = reasons.slice(0, mostReasons).map((reason) => `${reason.says} (${oddsInWords(reason.p)})`);
    lines.push(
      `${says} is open: why? ${told.join(", ")}. The job cannot close before this is answered (\`- why: {${protector}: ?}\`).`,
    );
  }
  if (plan.timeIsUp) lines.push("The time agreed for finding the fault is up: stop and talk to the customer.");
  return lines.flatMap((line) => ["", ...wrap(line, width, "  ! ", "    ")]);
}
