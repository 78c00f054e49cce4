/**
 * Something wrong with what we were given, as data: where, what was found, what was expected, the way out.
 * Sentences are made from it at the edge (`sentence.ts`); nothing in core throws for bad input.
 */
export interface Issue {
  /** Stable and dotted; its meaning never changes: `sheet.wire.one-end`. */
  readonly code: string;
  readonly severity: "error" | "warning";
  /** File as the user named it, when known. */
  readonly file?: string;
  /** 1-based line in that file, when known. */
  readonly line?: number;
  /** Path of keys in the input: `["parts", "heater", "P"]`. */
  readonly at: readonly (string | number)[];
  /** What stood there, as the user wrote it. */
  readonly found: string;
  readonly expected: string;
  /** What to do, in an imperative. */
  readonly hint?: string;
}

/** A value made from input, or every issue that stood in its way. */
export type Checked<T> =
  | { readonly ok: true; readonly value: T; readonly warnings: readonly Issue[] }
  | { readonly ok: false; readonly issues: readonly Issue[] };
