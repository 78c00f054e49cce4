import { csvRows } from "../csv/index.ts";
import { accept, type Checked, type Issue, refuse } from "../issue/index.ts";
import {
  BARRIER_ALSO,
  BARRIERS,
  type Barrier,
  CATEGORIES,
  type Category,
  COLUMNS,
  type Column,
  type Repair,
  STATUSES,
  type Status,
} from "./repair.ts";

/** Without these a row says nothing. */
const NEEDED: readonly Column[] = ["id", "repair_status", "event_date"];
const BRAND_UNKNOWN = "Unknown";

/** What published files do otherwise than the standard says: what is expected, and what is made of it. */
const DEVIATIONS = {
  "repairs.id": ["letters, a hyphen, a number", "An underscore is read as a hyphen; any other id is kept as it is."],
  "repairs.id-twice": ["an id of its own", "Both rows are kept."],
  "repairs.country": ["three capital letters (ISO 3166-1)", "The country is left out."],
  "repairs.category": ["one of the forty categories, and its number", "The name counts; an unknown one is left out."],
  "repairs.status": ["Unknown, Fixed, Repairable or End of life, or 0 to 3", "Taken as Unknown."],
  "repairs.barrier": [
    "one of the six barriers, in the standard's words",
    "Another wording is read as it is meant; an unknown one is left out.",
  ],
  "repairs.barrier-without-end": ["a barrier only where it came to an end of life", "The barrier is left out."],
  "repairs.year": ["a year of four digits, or nothing", "The year is left out."],
  "repairs.age": ["years with one decimal at most, or nothing", "The age is left out."],
  "repairs.date": ["a day as 2026-03-04", "The date is left out."],
  "repairs.row": ["as many fields as there are names", "The row is left out."],
} as const;
type Deviation = keyof typeof DEVIATIONS;

/**
 * Reads a file of the Open Repair Data Standard. What published files are known to do otherwise is taken as it is meant, and told:
 * one warning a kind, with how many rows and the line of the first.
 *
 * @source Open Repair Data Standard v0.3, standard.rst; deviations as counted in github.com/openrepair/data at 84dce89 (2025-10-16)
 */
export function readRepairs(text: string, file?: string): Checked<readonly Repair[]> {
  const rows = csvRows(text, ",");
  const head = rows.next();
  const names = head.done ? [] : head.value.fields.map((name) => name.trim());
  const missing = NEEDED.filter((name) => !names.includes(name));
  if (missing.length > 0) {
    return refuse({
      code: "repairs.form",
      severity: "error",
      ...(file === undefined ? {} : { file }),
      line: 1,
      at: [],
      found: names.length === 0 ? "an empty file" : `the names ${names.slice(0, 6).join(", ")}`,
      expected: `a first line of names, among them ${missing.join(", ")}`,
      hint: "A file of the Open Repair Data Standard: comma separated, a row an attempt at a repair.",
    });
  }
  const reader = new Reader(names, file);
  for (const row of rows) reader.row(row.line, row.fields, row.isUnclosed === true);
  return accept(reader.repairs, reader.warnings);
}

class Reader {
  readonly repairs: Repair[] = [];
  readonly #at: ReadonlyMap<string, number>;
  readonly #width: number;
  readonly #file: string | undefined;
  readonly #ids = new Set<string>();
  readonly #told = new Map<Deviation, { count: number; readonly line: number; readonly found: string }>();
  #line = 1;
  #fields: readonly string[] = [];

  constructor(names: readonly string[], file: string | undefined) {
    this.#at = new Map(names.map((name, at) => [name, at]));
    this.#width = names.length;
    this.#file = file;
  }

  row(line: number, fields: readonly string[], isUnclosed: boolean): void {
    this.#line = line;
    this.#fields = fields;
    if (fields.length !== this.#width || isUnclosed) {
      this.#note("repairs.row", isUnclosed ? "a quote that is never closed" : `${fields.length} fields`);
      return;
    }
    const status = this.#status();
    const country = this.#matching("country", /^[A-Z]{3}$/, "repairs.country");
    const category = this.#category();
    const brand = this.#cell("brand");
    const group = this.#cell("group_identifier");
    const year = this.#matching("year_of_manufacture", /^\d{4}$/, "repairs.year");
    const age = this.#matching("product_age", /^\d{1,4}(\.\d)?0*$/, "repairs.age");
    const date = this.#matching("event_date", /^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/, "repairs.date");
    const barrier = this.#barrier(status);
    this.repairs.push({
      id: this.#id(),
      provider: this.#cell("data_provider"),
      ...(country === undefined ? {} : { country }),
      partnerCategory: this.#cell("partner_product_category"),
      ...(category === undefined ? {} : { category }),
      ...(brand === "" || brand === BRAND_UNKNOWN ? {} : { brand }),
      ...(year === undefined ? {} : { madeIn: Number(year) }),
      ...(age === undefined ? {} : { ageYears: Number(age) }),
      status,
      ...(barrier === undefined ? {} : { barrier }),
      ...(group === "" ? {} : { group }),
      ...(date === undefined ? {} : { date }),
      problem: this.#cell("problem"),
    });
  }

  get warnings(): readonly Issue[] {
    const inFile = this.#file === undefined ? {} : { file: this.#file };
    const absent = COLUMNS.filter((name) => !this.#at.has(name));
    const columns: readonly Issue[] =
      absent.length === 0
        ? []
        : [
            {
              code: "repairs.columns",
              severity: "warning",
              ...inFile,
              line: 1,
              at: [],
              found: `no ${absent.join(", no ")}`,
              expected: "every column of the standard",
              hint: "Taken as not told.",
            },
          ];
    const deviations = [...this.#told].map(([code, { count, line, found }]): Issue => {
      const [expected, hint] = DEVIATIONS[code];
      const rows = count === 1 ? "1 row" : `${count} rows, the first`;
      return { code, severity: "warning", ...inFile, line, at: [], found: `${rows} with ${found}`, expected, hint };
    });
    return [...columns, ...deviations];
  }

  #cell(name: Column): string {
    const at = this.#at.get(name);
    return at === undefined ? "" : (this.#fields[at] ?? "").trim();
  }

  #note(code: Deviation, found: string): void {
    const told = this.#told.get(code);
    if (told === undefined) this.#told.set(code, { count: 1, line: this.#line, found });
    else told.count++;
  }

  #matching(name: Column, form: RegExp, code: Deviation): string | undefined {
    const text = this.#cell(name);
    if (form.test(text)) return text;
    if (text !== "" || code === "repairs.date") this.#note(code, `"${text}"`);
    return undefined;
  }

  #id(): string {
    const text = this.#cell("id");
    const id = text.replace("_", "-");
    if (!/^[a-z]+-\d+$/.test(text)) this.#note("repairs.id", `"${text}"`);
    if (this.#ids.has(id)) this.#note("repairs.id-twice", `"${text}"`);
    this.#ids.add(id);
    return id;
  }

  #category(): Category | undefined {
    const name = this.#cell("product_category");
    const number = this.#cell("product_category_id");
    const known = CATEGORIES.find((category) => category === name);
    const numbered = known === undefined ? undefined : String(CATEGORIES.indexOf(known) + 1);
    const isRight = name === "" ? number === "" : known !== undefined && (number === "" || number === numbered);
    if (!isRight) this.#note("repairs.category", `"${name}" and "${number}"`);
    return known;
  }

  #status(): Status {
    const text = this.#cell("repair_status");
    const known = STATUSES.find((status, code) => status === text || String(code) === text);
    if (known === undefined) this.#note("repairs.status", `"${text}"`);
    return known ?? "Unknown";
  }

  #barrier(status: Status): Barrier | undefined {
    const text = this.#cell("repair_barrier_if_end_of_life");
    if (text === "") return undefined;
    if (status !== "End of life") {
      this.#note("repairs.barrier-without-end", `"${text}" and "${status}"`);
      return undefined;
    }
    const known = BARRIERS.find((barrier, code) => barrier === text || String(code + 1) === text);
    if (known === undefined) this.#note("repairs.barrier", `"${text}"`);
    return known ?? BARRIER_ALSO.get(text);
  }
}
