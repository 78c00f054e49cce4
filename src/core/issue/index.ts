// The door of `issue`: what was wrong with what we were given.
export { accept, IssueList, refuse } from "./checked.ts";
export type { Checked, Issue } from "./issue.ts";
export { sentence } from "./sentence.ts";
