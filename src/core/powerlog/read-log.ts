import { csvRows } from "../csv/index.ts";
import { type Checked, type Issue, IssueList, refuse } from "../issue/index.ts";
import { didYouMean } from "../part/index.ts";
import { type Layout, layoutOf } from "./layout.ts";
import { numberIn } from "./number.ts";
import { DAY_SECONDS, secondsOf } from "./stamp.ts";

/** Power at the plug as a logger wrote it, row by row in the order of the file. */
export interface PowerLog {
  /** Seconds since the first row; they may stand still or go back, as the logger's clock did. */
  readonly seconds: Float64Array;
  /** Watts; NaN where nothing was logged. */
  readonly watts: Float64Array;
  /** Mains volts beside them, where logged; NaN where not. */
  readonly volts?: Float64Array;
  /** The column taken, and all that could have been. */
  readonly column: string;
  readonly columns: readonly string[];
}

/** Faulty rows told one by one; the others are counted. */
const MOST_TOLD = 5;
/** No socket gives more (a day's garbage reads 65535): watts. */
const MOST_WATTS = 50_000;

/**
 * Reads a log of power: separated text with seconds or time stamps and one or more columns of power. Separator, decimal sign,
 * form of time and columns are found from the text itself.
 *
 * @param column  name of the power column, or its number among them from 1; the first when silent
 * @returns       the log, with a warning for each row that could not be read; or why it is none
 */
export function readPowerLog(text: string, file?: string, column?: string): Checked<PowerLog> {
  const layout = layoutOf(text);
  if (layout === undefined) {
    return refuse(
      issue("powerlog.form", file, {
        found: text.trim() === "" ? "an empty file" : `"${text.trimStart().split(/\r?\n/, 1)[0]}"`,
        expected: "rows of a time and watts, separated by ; or , or tabs",
        hint: "A first column of seconds or of dates and times, then the power: 12;2040 or 2026-03-04 10:15:00,2040.5",
      }),
    );
  }
  const taken = columnTaken(layout, column);
  if (taken === undefined) {
    const names = layout.columns.power.map(({ name }) => name);
    return refuse(
      issue("powerlog.column", file, {
        found: `"${column}"`,
        expected: `a column of power: ${names.join(", ")}`,
        hint: didYouMean(column ?? "", names) ?? `Its name, or a number from 1 to ${names.length}.`,
      }),
    );
  }
  return new Reader(layout, taken, file).read(text);
}

type PowerColumn = Layout["columns"]["power"][number];

function columnTaken({ columns: { power } }: Layout, asked: string | undefined): PowerColumn | undefined {
  if (asked === undefined) return power[0];
  return power.find(({ name }) => name === asked) ?? (/^\d+$/.test(asked) ? power[Number(asked) - 1] : undefined);
}

class Reader {
  readonly #layout: Layout;
  readonly #taken: PowerColumn;
  readonly #file: string | undefined;
  readonly #issues = new IssueList();
  readonly #seconds = new Numbers();
  readonly #watts = new Numbers();
  readonly #volts = new Numbers();
  #faulty = 0;
  #empty = 0;
  #isOverADay = false;

  constructor(layout: Layout, taken: PowerColumn, file: string | undefined) {
    this.#layout = layout;
    this.#taken = taken;
    this.#file = file;
  }

  read(text: string): Checked<PowerLog> {
    const { separator, firstLine, columns } = this.#layout;
    for (const { line, fields } of csvRows(text, separator)) if (line >= firstLine) this.#row(line, fields);
    const rows = this.#seconds.length;
    const inFile = this.#file;
    if (rows < 2 || this.#faulty > rows) {
      this.#issues.add(
        issue("powerlog.rows", inFile, {
          found: `${rows} row${rows === 1 ? "" : "s"} that can be read, ${this.#faulty} that cannot`,
          expected: "at least two, and more than cannot be read",
        }),
      );
    } else if (this.#faulty > MOST_TOLD) {
      this.#warn("powerlog.row", `${this.#faulty} such rows`, "rows like the others", "All of them were left out.");
    }
    if (this.#empty > 0)
      this.#warn(
        "powerlog.empty",
        `${this.#empty} rows with no power`,
        "watts",
        "There the power is taken as unknown.",
      );
    if (this.#layout.isOrderOpen && this.#isOverADay) {
      this.#warn(
        "powerlog.date",
        "dates that read either way",
        "a day above 12 somewhere",
        "The day was taken to stand first.",
      );
    }
    return this.#issues.conclude(() => ({
      seconds: this.#seconds.all,
      watts: this.#watts.all,
      ...(columns.volts === undefined ? {} : { volts: this.#volts.all }),
      column: this.#taken.name,
      columns: columns.power.map(({ name }) => name),
    }));
  }

  #first: number | undefined;

  #row(line: number, fields: readonly string[]): void {
    const { stamp, decimal, columns } = this.#layout;
    const moment = secondsOf(fields, stamp);
    const cell = fields[this.#taken.at];
    const power = cell === undefined ? undefined : numberIn(cell, decimal);
    if (moment === undefined || power === undefined || Math.abs(power * this.#taken.scale) > MOST_WATTS) {
      this.#fault(line, fields, moment === undefined);
      return;
    }
    this.#first ??= moment;
    const seconds = moment - this.#first;
    if (seconds > DAY_SECONDS) this.#isOverADay = true;
    if (Number.isNaN(power)) this.#empty++;
    this.#seconds.add(this.#unwound(seconds));
    this.#watts.add(power * this.#taken.scale);
    if (columns.volts !== undefined) this.#volts.add(numberIn(fields[columns.volts] ?? "", decimal) ?? Number.NaN);
  }

  /** A clock without a date starts anew at midnight. */
  #unwound(seconds: number): number {
    if (this.#layout.stamp.name !== "time of day") return seconds;
    const last = this.#seconds.last;
    return seconds + DAY_SECONDS * Math.max(0, Math.round((last - seconds) / DAY_SECONDS));
  }

  #fault(line: number, fields: readonly string[], isTime: boolean): void {
    this.#faulty++;
    if (this.#faulty > MOST_TOLD) return;
    const found = `"${fields.join(this.#layout.separator)}"`;
    const expected = isTime ? "a time as in the first row" : `watts in "${this.#taken.name}", below ${MOST_WATTS} W`;
    this.#issues.add({ ...issue("powerlog.row", this.#file, { found, expected }), severity: "warning", line });
  }

  #warn(code: string, found: string, expected: string, hint: string): void {
    this.#issues.add({ ...issue(code, this.#file, { found, expected, hint }), severity: "warning" });
  }
}

function issue(code: string, file: string | undefined, words: Pick<Issue, "found" | "expected" | "hint">): Issue {
  return { code, severity: "error", ...(file === undefined ? {} : { file }), at: [], ...words };
}

/** Numbers as they come, without a box round each: a log may hold millions. */
class Numbers {
  #held = new Float64Array(1024);
  length = 0;

  add(value: number): void {
    if (this.length === this.#held.length) {
      const wider = new Float64Array(2 * this.length);
      wider.set(this.#held);
      this.#held = wider;
    }
    this.#held[this.length++] = value;
  }

  get last(): number {
    return this.length === 0 ? 0 : this.#held[this.length - 1];
  }

  get all(): Float64Array {
    return this.#held.slice(0, this.length);
  }
}
