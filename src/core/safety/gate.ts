import type { SafetyVerdict } from "./judge.ts";
import type { SafetyTest } from "./rules.ts";

/** What must be so before a job may be closed as mended, as far as it is known. */
export interface GateFacts {
  /** Each thing that hands and eyes check, and what they found; `undefined`: nobody looked. */
  readonly checks: readonly { readonly check: string; readonly holds: boolean | undefined }[];
  /** Protectors that opened, and nobody knows why. */
  readonly unanswered: readonly string[];
  /** Things that are not back in their place. */
  readonly owed: readonly string[];
  /** The safety tests since the machine was last opened or mended; none: no rule set was chosen. */
  readonly verdict: SafetyVerdict | undefined;
  /** The proof of the repair failed. */
  readonly disproved: readonly string[];
  /** Something was mended, and nobody says that it did not work. */
  readonly isMended: boolean;
  /** What was amiss and was not seen or read to be right since; what still is amiss. */
  readonly notRight: readonly string[];
  /** It was energised after the repair before look, earth and insulation, and no row of tests was begun since. */
  readonly owesNewTests: boolean;
  /** Nothing was opened and no part was mended: there is nothing to test for safety. */
  readonly isUntouched: boolean;
}

/** Why the job may not be closed yet. */
export type GateReason =
  | { readonly is: "check failed" | "not checked"; readonly check: string }
  | { readonly is: "why did it open"; readonly protector: string }
  | { readonly is: "not put back"; readonly item: string }
  | { readonly is: "disproved" | "not seen right"; readonly what: string }
  | { readonly is: "nothing mended" | "energised early" }
  | { readonly is: "tests not begun" }
  | { readonly is: "test failed"; readonly test: SafetyTest }
  | { readonly is: "tests not finished"; readonly next: SafetyTest };

/** Everything that keeps the door shut; nothing: the job may be closed. */
export interface Gate {
  readonly isOpen: boolean;
  readonly reasons: readonly GateReason[];
}

/** May the job be closed as mended? Every reason against it, the dangerous ones first. */
export function closeOutGate(facts: GateFacts): Gate {
  const { checks, unanswered, owed, verdict, disproved, isMended, notRight, owesNewTests, isUntouched } = facts;
  // Who touched nothing owes no test; what was found bad all the same counts.
  const asked = isUntouched ? [] : checks;
  const tests = isUntouched && verdict === undefined ? [] : testReasons(verdict);
  const reasons: GateReason[] = [
    ...checks.filter(({ holds }) => holds === false).map(({ check }) => ({ is: "check failed" as const, check })),
    ...tests.filter(({ is }) => is === "test failed"),
    ...unanswered.map((protector) => ({ is: "why did it open" as const, protector })),
    ...(isMended ? [] : [{ is: "nothing mended" as const }]),
    ...disproved.map((what) => ({ is: "disproved" as const, what })),
    ...notRight.map((what) => ({ is: "not seen right" as const, what })),
    ...owed.map((item) => ({ is: "not put back" as const, item })),
    ...asked.filter(({ holds }) => holds === undefined).map(({ check }) => ({ is: "not checked" as const, check })),
    ...(owesNewTests ? [{ is: "energised early" as const }] : []),
    ...tests.filter(({ is }) => is !== "test failed"),
  ];
  return { isOpen: reasons.length === 0, reasons };
}

function testReasons(verdict: SafetyVerdict | undefined): readonly GateReason[] {
  if (verdict === undefined) return [{ is: "tests not begun" }];
  const failed = verdict.lines.filter(({ says }) => says === "fail");
  if (failed.length > 0) return failed.map(({ test }) => ({ is: "test failed", test }));
  return verdict.next === undefined ? [] : [{ is: "tests not finished", next: verdict.next }];
}
