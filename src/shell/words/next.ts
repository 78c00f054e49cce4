import { readGood, type Verification, verificationOf, type WorkedJob } from "../../core/ledger/index.ts";
import type { Plan } from "../../core/plan/index.ts";
import { legs } from "../../core/suspect/index.ts";
import { doubtsInWords, duesInWords } from "./doubts.ts";
import { legsInWords } from "./explanation.ts";
import { faultsInWords } from "./faults.ts";
import { headingInWords } from "./heading.ts";
import { observationInWords } from "./observation.ts";
import { refinedInWords } from "./refined.ts";
import { nextStepInWords, runnerUpInWords, worthNaming } from "./step.ts";
import { isInOrder, verificationInWords } from "./verification.ts";
import { width, wrap } from "./wrap.ts";

const runnersUp = 4;
/** A board is spoken of from this suspicion on: before it, nobody has accused it. */
const leastBoard = 0.2;

/** The next step of a job; or, once something was mended, how that is verified and the job led to its end. */
export function nextInWords(worked: WorkedJob, plan: Plan, isRefined = false): string[] {
  const verification = verificationOf(worked);
  const lines = headingInWords(worked, plan);
  if (verification !== undefined && verification.stillAmiss.length === 0) {
    return [...lines, ...duesInWords(worked, plan), ...verifyInWords(worked, plan, verification)];
  }
  lines.push("", "Possible faults", ...faultsInWords(worked.belief, verification !== undefined));
  if (verification !== undefined) lines.push(...stillAmissInWords(worked, verification));
  lines.push(...doubtsInWords(worked), ...boardsInWords(worked), ...duesInWords(worked, plan));
  const [next, ...rest] = plan.steps;
  if (next === undefined) return [...lines, "", "Nothing is left to do."];
  const { currency } = worked.shop;
  lines.push("", "Next step", ...nextStepInWords(next, currency, { good: readGood(worked) }));
  if (next.do !== "stop" && next.do !== "talk") {
    lines.push(
      "",
      ...wrap(`Not possible here? Write - cannot: ${JSON.stringify(next.id)}, and ask again.`, width, "  "),
    );
  }
  if (isRefined) lines.push("", ...refinedInWords(plan, currency));
  const others = instead(rest, currency);
  return others.length === 0 ? lines : [...lines, "", "Or instead", ...others];
}

/** What is not yet proved of a board that is suspected enough to be named. */
function boardsInWords({ case: the, observations, belief }: WorkedJob): string[] {
  return legs(the, observations, belief)
    .filter(({ p, proved }) => p >= leastBoard && !proved)
    .flatMap((board) => ["", ...wrap(legsInWords(board), width, "  ! ", "    ")]);
}

function verifyInWords(worked: WorkedJob, plan: Plan, verification: Verification): string[] {
  const { belief, shop } = worked;
  const lines = ["", ...verificationInWords(verification, plan.unanswered)];
  if (isInOrder(belief)) return lines;
  lines.push("", "Possible faults, if it is not right", ...faultsInWords(belief, true));
  const search = plan.steps.filter(({ do: what }) => what !== "verify" && what !== "stop");
  const then = instead(search, shop.currency);
  return then.length === 0 ? lines : [...lines, "", "Then", ...then];
}

function stillAmissInWords({ case: the }: WorkedJob, { repair, stillAmiss }: Verification): string[] {
  const signs = the.candidates[0]?.machine.signs ?? [];
  const found = stillAmiss.map((observation) => observationInWords(observation, signs)).join("; ");
  return [
    "",
    ...wrap(
      `After the repair (${repair.says}: ${repair.remedy}) this is still amiss: ${found}.`,
      width,
      "  ! ",
      "    ",
    ),
  ];
}

function instead(steps: Plan["steps"], currency: string): string[] {
  return worthNaming(steps)
    .slice(0, runnersUp)
    .flatMap((step) => runnerUpInWords(step, currency));
}
