import type { Issue } from "../../src/core/issue/index.ts";

/** What a form's reader made of one mutated file. */
export interface Judged {
  /** The reasons of a refusal; `undefined` when the file was taken. */
  readonly refused?: readonly Issue[];
  /** What came of a file that was taken: plain data whose numbers must be finite. */
  readonly told?: unknown;
}

/** One form of input that is mutated. */
export interface Form {
  readonly name: string;
  /** The good files that mutants are made from, name → text. */
  readonly files: ReadonlyMap<string, string>;
  /** Share of the soak's mutants, as a weight. */
  readonly weight: number;
  /**
   * Reads a mutated file and uses what was taken. It refuses with issues; throwing is a failure, and so is `told` that
   * breaks a law, for which it throws too.
   *
   * @param round  which mutant it is, for work that is too dear to do for each
   */
  readonly judge: (text: string, file: string, round: number) => Judged;
}

/** Throws where what was told breaks a law. */
export function hold(law: boolean, says: string): void {
  if (!law) throw new Error(`nonsense: ${says}`);
}
