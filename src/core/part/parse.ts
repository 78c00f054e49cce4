import { accept, type Checked, refuse } from "../issue/index.ts";
import type { Expression } from "./formula.ts";
import { Parser, Refusal } from "./parser.ts";
import type { Place } from "./place.ts";
import { tokensOf } from "./token.ts";

const MOST_CHARACTERS = 4000;

/**
 * Parses a formula or condition of a sheet or a kind.
 *
 * Loosest to tightest: `or`; `and`; `not`; `at now|seconds|minutes|end`; comparisons, `is [not] phrase`,
 * `between lo and hi`; `+ -`; `* /`; sign; `8% of x`. A minus has blanks around it, since hyphens belong to names.
 * Arguments are parted by `;` (a comma would end a YAML flow entry).
 *
 * @param place  where the text stands; issues add the column
 * @example parseExpression("coil.volts >= pull * U", place)
 */
export function parseExpression(text: string, place: Place): Checked<Expression> {
  const bad = (column: number, found: string, expected: string, hint?: string): Checked<never> =>
    refuse({
      code: "formula.syntax",
      severity: "error",
      ...place,
      found: `${found} in column ${column} of "${text.length > 80 ? `${text.slice(0, 77)}...` : text}"`,
      expected,
      ...(hint === undefined ? {} : { hint }),
    });
  if (text.length > MOST_CHARACTERS) {
    return bad(1, `${text.length} characters`, `a formula of at most ${MOST_CHARACTERS} characters`);
  }
  const scanned = tokensOf(text);
  if ("badColumn" in scanned) {
    const character = [...text.slice(scanned.badColumn - 1)][0] ?? "";
    const hint = character === "," ? "Part arguments with ; and put a phrase with a comma in quotes." : undefined;
    return bad(scanned.badColumn, `"${character}"`, "a name, a number or a sign", hint);
  }
  try {
    return accept({ text, root: new Parser(scanned.tokens).whole(), place });
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    const found = error.token.is === "end" ? "the end" : `"${error.token.text}"`;
    return bad(error.token.column, found, error.expected, error.hint);
  }
}
