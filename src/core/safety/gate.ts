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
}

/** Why the job may not be closed yet. */
export type GateReason =
  | { readonly is: "check failed" | "not checked"; readonly check: string }
  | { readonly is: "why did it open"; readonly protector: string }
  | { readonly is: "not put back"; readonly item: string }
  | { readonly is: "disproved"; readonly what: string }
  | { readonly is: "tests not begun" }
  | { readonly is: "test failed"; readonly test: SafetyTest }
  | { readonly is: "tests not finished"; readonly next: SafetyTest };

/** Everything that keeps the door shut; nothing: the job may be closed. */
export interface Gate {
  readonly isOpen: boolean;
  readonly reasons: readonly GateReason[];
}

/** May the job be closed as mended? Every reason against it, the dangerous ones first. */
export function closeOutGate({ checks, unanswered, owed, verdict, disproved }: GateFacts): Gate {
  const reasons: GateReason[] = [
    ...checks.filter(({ holds }) => holds === false).map(({ check }) => ({ is: "check failed" as const, check })),
    ...testReasons(verdict).filter(({ is }) => is === "test failed"),
    ...unanswered.map((protector) => ({ is: "why did it open" as const, protector })),
    ...disproved.map((what) => ({ is: "disproved" as const, what })),
    ...owed.map((item) => ({ is: "not put back" as const, item })),
    ...checks.filter(({ holds }) => holds === undefined).map(({ check }) => ({ is: "not checked" as const, check })),
    ...testReasons(verdict).filter(({ is }) => is !== "test failed"),
  ];
  return { isOpen: reasons.length === 0, reasons };
}

function testReasons(verdict: SafetyVerdict | undefined): readonly GateReason[] {
  if (verdict === undefined) return [{ is: "tests not begun" }];
  const failed = verdict.lines.filter(({ says }) => says === "fail");
  if (failed.length > 0) return failed.map(({ test }) => ({ is: "test failed", test }));
  return verdict.next === undefined ? [] : [{ is: "tests not finished", next: verdict.next }];
}
