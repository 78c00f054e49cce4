/**
 * The plain table of a troubleshooting problem, form `faultwright-table/1`: exactly one cause is present; a test may be
 * done once and its outcomes are independent given the cause; a repair cures its own cause and shows at once whether it
 * did; the first action of a group also pays the group's cost. The costs may be money or minutes, all in one unit.
 */
export interface PlanTable {
  readonly causes: readonly TableCause[];
  readonly groups: readonly TableGroup[];
  readonly tests: readonly TableTest[];
  /** Remedies that may fail, or that mend several causes; those of a cause's own are in `causes`. */
  readonly remedies: readonly TableRemedy[];
  /** Cost of giving up; `undefined` where that is not allowed. */
  readonly stop: number | undefined;
}

export interface TableCause {
  readonly id: string;
  readonly prior: number;
  /** Infinite where the cause has no repair of its own. */
  readonly repairCost: number;
  /** Index of the repair's group, or -1. */
  readonly repairGroup: number;
}

export interface TableGroup {
  readonly id: string;
  readonly cost: number;
}

export interface TableTest {
  readonly id: string;
  readonly cost: number;
  /** Index of the test's group, or -1. */
  readonly group: number;
  /** `chance[cause][outcome]`; each row sums to 1. */
  readonly chance: readonly (readonly number[])[];
}

/** What may be tried once; whether it mended is seen at once. It fails or not by itself, whatever the tests showed. */
export interface TableRemedy {
  readonly id: string;
  readonly cost: number;
  /** Paid beside the cost, by cause: lost where it was for nothing, or still to be paid where it mends only with that. */
  readonly extra: readonly number[];
  /** Index of its group, or -1. */
  readonly group: number;
  /** Chance that it mends, by cause. */
  readonly cures: readonly number[];
}

export type PlanNode =
  | { readonly do: "test"; readonly id: string; readonly then: { readonly [outcome: string]: number } }
  | { readonly do: "repair"; readonly id: string; readonly else: number | null }
  | { readonly do: "stop" };

/** A policy as a graph: numbers are indices of `nodes`; `else` is null where the repair cannot fail. */
export interface PlanPolicy {
  readonly root: number;
  readonly nodes: readonly PlanNode[];
}

/** What `table plan` prints. `exact` means proved: expected cost and lower bound agree to 1e-9. */
export interface PlanAnswer {
  readonly expectedCost: number;
  readonly lowerBound: number;
  readonly exact: boolean;
  readonly first: { readonly do: "test" | "repair"; readonly id: string } | { readonly do: "stop" };
  readonly policy?: PlanPolicy;
}
