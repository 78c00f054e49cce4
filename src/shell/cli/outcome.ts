import { type Checked, type Issue, sentence } from "../../core/issue/index.ts";

/** Exit codes, told in `--help`: what a script may rely on. */
export const exitCode = { done: 0, faultsFound: 1, badInput: 2, notSetUp: 3, ourFault: 70 } as const;

/** Ends a command because its input was refused; `main` prints every issue and exits with code 2. */
export class Refused extends Error {
  readonly issues: readonly Issue[];

  constructor(issues: readonly Issue[]) {
    super(issues.map(sentence).join("\n"));
    this.issues = issues;
  }
}

/** The value of what was read, its warnings told on standard error; or the command ends with every issue. */
export function need<T>(checked: Checked<T>, file?: string): T {
  if (!checked.ok) throw new Refused(inFile(checked.issues, file));
  for (const warning of inFile(checked.warnings, file)) process.stderr.write(`${sentence(warning)}\n`);
  return checked.value;
}

function inFile(issues: readonly Issue[], file: string | undefined): readonly Issue[] {
  return file === undefined ? issues : issues.map((issue) => (issue.file === undefined ? { ...issue, file } : issue));
}

/** Writes text or, for programs, JSON to standard output. */
export function print(text: string | readonly string[]): void {
  process.stdout.write(`${typeof text === "string" ? text : text.join("\n")}\n`);
}

export function printJson(value: unknown): void {
  process.stdout.write(`${JSON.stringify(value, null, 2)}\n`);
}
