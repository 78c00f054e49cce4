import type { Checked } from "../issue/index.ts";
import { type Cursor, readWith } from "../part/index.ts";
import type { Source } from "../quantity/index.ts";

export const LIVES_FORMAT = "faultwright-lives/1";
const LIVES_KEYS = ["format", "lives"] as const;
const LIFE_KEYS = ["sheet", "country", "years", "of"] as const;

/** How long a family of machines serves in a country. */
export interface ServiceLife {
  /** A sheet's name; `all` for large household appliances together. */
  readonly sheet: string;
  /** ISO 3166-1, two letters. */
  readonly country: string;
  readonly years: number;
  /** What the years are of: first use, age when scrapped, as owners expect it. */
  readonly of: string;
  readonly source: Source;
}

/** A file of service lives: each with its country and source, or every issue at once. */
export function readLives(text: string, file?: string): Checked<readonly ServiceLife[]> {
  return readWith(text, file, (root) => {
    root.onlyKeys(LIVES_KEYS);
    const format = root.need("format", `format: ${LIVES_FORMAT}`);
    if (format !== undefined && format.text() !== LIVES_FORMAT) format.refuse("lives.format", LIVES_FORMAT);
    return (root.need("lives", "lives: a list")?.items() ?? []).flatMap((item) => readLife(item) ?? []);
  });
}

function readLife(at: Cursor): ServiceLife | undefined {
  at.onlyKeys(LIFE_KEYS);
  const sheet = at.need("sheet", "sheet: a family's name, or all")?.word();
  const country = at.need("country", "country: two letters")?.word();
  const years = at.need("years", "years of service")?.number(1, 50);
  const of = at.need("of", "of: what the years are of")?.word();
  if (at.source === undefined)
    at.refuse("lives.no-source", "source: where the years come from", undefined, "no source");
  if (sheet === undefined || country === undefined || years === undefined || of === undefined) return undefined;
  return at.source === undefined ? undefined : { sheet, country, years, of, source: at.source };
}

/** The life of this family in this country; else of all large appliances there. */
export function lifeOf(
  lives: readonly ServiceLife[],
  sheet: string,
  country: string | undefined,
): ServiceLife | undefined {
  const there = lives.filter((life) => life.country === country);
  return there.find((life) => life.sheet === sheet) ?? there.find((life) => life.sheet === "all");
}
