// The door of `search`: the cheapest sequence of tests and repairs of a plain table, with a proven bound.
export { askPlan, type PlanOptions } from "./ask-plan.ts";
export type { PlanAnswer, PlanNode, PlanPolicy, PlanTable, TableRemedy, TableTest } from "./table.ts";
export { type First, type Weighed, type Worth, weighFirst } from "./weigh-first.ts";
