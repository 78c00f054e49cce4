// The door of `repairs`: repairs in the Open Repair Data Standard, read, written and counted.

export { type RepairFacts, repairOfJob } from "./of-job.ts";
export { readRepairs } from "./read-repairs.ts";
export { BARRIERS, type Barrier, CATEGORIES, type Category, type Repair, STATUSES } from "./repair.ts";
export { type CategoryRow, tabulate } from "./tabulate.ts";
export { writeRepairs } from "./write-repairs.ts";
