import { unansweredOf } from "../plan/index.ts";
import {
  closeOutGate,
  type Gate,
  type InsulationCoverage,
  insulationCoverage,
  judgeSafety,
  type SafetyRules,
  type SafetyVerdict,
} from "../safety/index.ts";
import type { Observation } from "../sign/index.ts";
import type { Closing, Proved } from "./closing.ts";
import { CLOSE_OUT_CHECKS } from "./closing-event.ts";
import { type Verification, verificationOf } from "./verification.ts";
import type { WorkedJob } from "./work-out.ts";

/** How a job stands at the door. */
export interface CloseOut {
  /** The tests by the rules that were chosen; none while nobody chose any, or they are not known here. */
  readonly verdict?: SafetyVerdict;
  readonly gate: Gate;
  /** Protectors that opened for a reason nobody knows, with the likeliest reasons. */
  readonly unanswered: ReturnType<typeof unansweredOf>;
  /** What a test at the plug reaches of the likeliest machine; none where it is not class I. */
  readonly coverage?: InsulationCoverage;
}

/**
 * Judges the tests, asks the gate, and works out what the insulation test did not reach.
 *
 * @param rules  the set that the job chose (`closing.safety.setting.rules`), the same that `closing` was folded with
 */
export function closeOutOf(worked: WorkedJob, closing: Closing, rules: SafetyRules | undefined): CloseOut {
  const { safety } = closing;
  const verdict =
    safety === undefined || rules === undefined ? undefined : judgeSafety(rules, safety.setting, safety.findings);
  const isClassOne = safety === undefined || safety.setting.protection === "I";
  const checks = CLOSE_OUT_CHECKS.filter((check) => check !== "earth re-made" || isClassOne);
  const unanswered = unansweredOf(worked.case, worked.belief, worked.state.work, worked.shop, {
    meters: worked.meters,
  });
  const verification = verificationOf(worked);
  const gate = closeOutGate({
    checks: checks.map((check) => ({ check, holds: closing.checks.get(check) })),
    unanswered: unanswered.map(({ says }) => says),
    owed: closing.putBack.filter(({ isBack }) => !isBack).map(({ says }) => says),
    verdict,
    disproved: closing.proved.filter(isDisproved).map(({ says }) => says),
    isMended: verification !== undefined,
    notRight: verification === undefined ? [] : notRight(verification),
    owesNewTests: closing.owesNewTests,
    isUntouched: closing.isUntouched,
  });
  const coverage = isClassOne ? insulationCoverage(likeliest(worked)) : undefined;
  return {
    gate,
    unanswered,
    ...(verdict === undefined ? {} : { verdict }),
    ...(coverage === undefined ? {} : { coverage }),
  };
}

function isDisproved(one: Proved): boolean {
  switch (one.kind) {
    case "operated":
      return one.proof.says === "not mended";
    case "heated":
      return one.proof.says === "too little";
    case "logged":
      return one.log.steps.some(({ says }) => says === "too little");
    case "loaded":
      return false;
  }
}

/** What was amiss before the repair and was not found right since. */
function notRight({ toRead, toCount, toSee, stillAmiss }: Verification): readonly string[] {
  const found = [...stillAmiss, ...toRead.map(({ reading }) => reading), ...toCount.map(({ count }) => count)];
  return [...new Set([...found.map(thingOf), ...toSee.map(({ sign }) => sign.ask)])];
}

function thingOf(one: Observation): string {
  switch (one.kind) {
    case "reading":
    case "count": {
      const { from, to, quantity, measure } = one.probe;
      if (measure !== undefined) return `${measure.cause}: ${measure.id}`;
      return from === undefined || to === undefined ? quantity : `${from} to ${to}`;
    }
    case "sign":
      return `${one.sign}: ${one.answer}`;
    case "look":
      return one.at;
    case "answer":
      return one.slot;
  }
}

/** The machine that this most probably is. */
export function likeliest({ case: the, belief }: WorkedJob): WorkedJob["case"]["candidates"][number]["machine"] {
  const weight = new Map<number, number>();
  the.hypotheses.forEach(({ candidate }, h) => {
    weight.set(candidate, (weight.get(candidate) ?? 0) + Math.exp(belief.logPosterior[h] as number));
  });
  const [best] = [...weight].sort((a, b) => b[1] - a[1] || a[0] - b[0]);
  const { machine } = the.candidates[best?.[0] ?? 0] as (typeof the.candidates)[number];
  return machine;
}
