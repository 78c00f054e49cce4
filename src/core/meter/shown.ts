import type { Checked, Issue } from "../issue/index.ts";
import { accept, refuse } from "../issue/index.ts";
import { isOverLimit, parseAmount } from "../quantity/index.ts";
import type { Quantity, Shown, Word } from "./meter.ts";
import { measured } from "./quantity-unit.ts";

/** Where the text stands, for issues. */
interface Place {
  readonly at?: readonly (string | number)[];
  readonly file?: string;
  readonly line?: number;
}

const words: ReadonlyMap<string, Word> = new Map<string, Word>([
  ["beeps", "beeps"],
  ["beep", "beeps"],
  ["buzzes", "beeps"],
  ["no beep", "no beep"],
  ["silent", "no beep"],
  ["good", "good"],
  ["ok", "good"],
  ["fine", "good"],
  ["some", "some"],
  ["none", "none"],
  ["nothing", "none"],
  ["low", "low"],
  ["has continuity", "has continuity"],
  ["continuity", "has continuity"],
  ["bad", "bad"],
]);

/**
 * What a person wrote down for a reading: a value (`26`, `3k8`, `26.4 Ω`, `1250 W`), over-limit (`OL`, `0L`, `> 2M`), a word, or
 * a count of operations (`19 of 20`).
 *
 * @example parseShown("3k8", "ohms") // { kind: "value", value: 3800, step: 100 }
 */
export function parseShown(text: string, quantity: Quantity, place: Place = {}): Checked<Shown> {
  const plain = text.trim().toLowerCase().replaceAll(/\s+/g, " ");
  const { unit, says, doubtful, openIsOverLimit } = measured(quantity);
  if (isOverLimit(plain) || (openIsOverLimit && plain === "0l")) return accept({ kind: "over limit" });
  const word = words.get(plain);
  if (word !== undefined) return accept({ kind: "word", word });
  const count = /^(\d{1,6}) ?(?:of|\/) ?(\d{1,6})$/.exec(plain);
  if (count !== null) return countOf(Number(count[1]), Number(count[2]), text, place);
  const above = /^\s*(?:>|over|above|more than)\s*(.+)$/is.exec(text);
  const amount = parseAmount(above?.[1] ?? text, { unit, ...place });
  if (!amount.ok) return refuse(...amount.issues.map((issue) => withWords(issue)));
  const { nominal, spread } = amount.value;
  if (spread !== "exact")
    return refuse(issueAt("reading.one-value", text, "one value, as the display shows it", place));
  if (doubtful !== undefined && isBare(text) && nominal >= doubtful.from && nominal <= doubtful.to) {
    const hint = `Write ${text.trim()}${doubtful.prefix} if that is meant.`;
    return refuse(issueAt("reading.prefix", text, `${says} with their prefix`, place, hint));
  }
  if (above !== null) return accept({ kind: "over limit", top: nominal });
  const step = stepOf(text, nominal);
  return accept({ kind: "value", value: nominal, ...(step === undefined ? {} : { step }) });
}

/**
 * Several readings typed in one go, parted by blanks, commas between blanks, or semicolons: `26 ol 3k8` are three. A unit or word
 * of two parts keeps its blank (`3.3 kΩ`, `no beep`, `19 of 20`). All issues together, each with its place in the row.
 */
export function parseShownBatch(text: string, quantity: Quantity, place: Place = {}): Checked<readonly Shown[]> {
  const marked = text
    .trim()
    .replaceAll(/\b(no|has) (beep|continuity)\b/gi, "$1_$2")
    .replaceAll(/(\d) (of) (\d)/gi, "$1_$2_$3")
    .replaceAll(/(\d) +(?=(?:[kKMGTmuµμnp]?(?:Ω|Ω|ohms?|V|A|W|F|Hz)|°C|L\/min|mm|mbar|%|[kMGµ])(?:[\s;]|$))/g, "$1_")
    .replaceAll(/> +/g, ">");
  const pieces = marked.split(/\s*;\s*|,?\s+/).filter((piece) => piece !== "");
  const shown: Shown[] = [];
  const issues: Issue[] = [];
  for (const [index, piece] of pieces.entries()) {
    const read = parseShown(piece.replaceAll("_", " "), quantity, { ...place, at: [...(place.at ?? []), index] });
    if (read.ok) shown.push(read.value);
    else issues.push(...read.issues);
  }
  return issues.length > 0 ? refuse(...issues) : accept(shown);
}

function countOf(good: number, of: number, text: string, place: Place): Checked<Shown> {
  if (of > 0 && good <= of) return accept({ kind: "count", good, of });
  return refuse(issueAt("reading.count", text, "so many good of so many tried, as 19 of 20", place));
}

function isBare(text: string): boolean {
  return /^[\d.,\s+-]+$/.test(text);
}

/** One of the last digit written: 0.1 for `26.4`, 100 for `3k8`; unknown for zero. */
function stepOf(text: string, value: number): number | undefined {
  const found = /(\d*)(?:[.,RLFVkKMGTpnuµμm](\d+))?/.exec(text.trim().replace(/^[^\d.,R]+/, ""));
  const decimals = (found?.[2] ?? "").length;
  const mantissa = Number(`${found?.[1] || "0"}.${found?.[2] ?? "0"}`);
  if (!(mantissa > 0)) return undefined;
  return Number((Math.abs(value / mantissa) * 10 ** -decimals).toPrecision(6));
}

function withWords(issue: Issue): Issue {
  const expected = `${issue.expected}; or OL, a word such as good or beeps, or 19 of 20`;
  return { ...issue, code: issue.code.replace("quantity.", "reading."), expected };
}

function issueAt(code: string, text: string, expected: string, place: Place, hint?: string): Issue {
  return {
    code,
    severity: "error",
    ...(place.file === undefined ? {} : { file: place.file }),
    ...(place.line === undefined ? {} : { line: place.line }),
    at: place.at ?? [],
    found: JSON.stringify(text),
    expected,
    ...(hint === undefined ? {} : { hint }),
  };
}
