import { clipIssue } from "./clip.ts";
import type { Checked, Issue } from "./issue.ts";

/** A value that was read without error; warnings travel with it. */
export function accept<T>(value: T, warnings: readonly Issue[] = []): Checked<T> {
  return { ok: true, value, warnings };
}

/** Refuses the input, with every reason. */
export function refuse(...issues: readonly Issue[]): Checked<never> {
  return { ok: false, issues: issues.map(clipIssue) };
}

/** Gathers issues while a whole file is read, so that a person sees all of them in one go. */
export class IssueList {
  readonly #issues: Issue[] = [];

  add(issue: Issue): void {
    this.#issues.push(clipIssue(issue));
  }

  /** The value of `checked`, its warnings kept; or `undefined`, its issues kept. */
  take<T>(checked: Checked<T>): T | undefined {
    if (checked.ok) {
      this.#issues.push(...checked.warnings);
      return checked.value;
    }
    this.#issues.push(...checked.issues);
    return undefined;
  }

  get all(): readonly Issue[] {
    return this.#issues;
  }

  get hasErrors(): boolean {
    return this.#issues.some((issue) => issue.severity === "error");
  }

  /** `value` with the warnings, or all issues when one of them is an error. */
  conclude<T>(value: () => T): Checked<T> {
    if (this.hasErrors) return { ok: false, issues: this.#issues };
    return { ok: true, value: value(), warnings: this.#issues };
  }
}
