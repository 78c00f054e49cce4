import type { Checked, Issue } from "../issue/index.ts";
import { accept, refuse } from "../issue/index.ts";
import type { Rated, Source } from "./rated.ts";
import { prefixExponent, readSuffix, type Unit, type UnitCode, unitOf } from "./unit.ts";

/** What kind of amount a field wants, and where it stands (for the issue when it is something else). */
export interface Want {
  /** Amounts without a unit are taken to be in it; others are converted to it, or refused. */
  readonly unit?: UnitCode;
  /** Refuse zero and less. Ohms, farads, litres and the like are never below zero, asked or not. */
  readonly positive?: boolean;
  /** Let `OL` through, as Infinity. */
  readonly open?: boolean;
  readonly at?: readonly (string | number)[];
  readonly file?: string;
  readonly line?: number;
}

/**
 * Reads an amount as a plate, a sheet or a person writes it: plain (`26`, `3,3 kΩ`, `0.47 µF`), in the code of resistor
 * marking (`3k3`, `26R5`, `0R1`, `R47`), with a tolerance (`3k3 ±10%`, `2400 W +5-10%`, `1500 ±0.2`), as a range (`2k..15k`,
 * `5-40`, `15..30 mA`), each with its source mark (`20 mA @C`, `167 @S n=6`). Per cent become a plain number.
 *
 * @source IEC 60062 (marking codes for resistors and capacitors): letter in place of the decimal point
 * @example parseAmount("3k3 ±10%", { unit: "Ohm" }) // value: nominal 3300, lo 2970, hi 3630, spread "tolerance"
 */
export function parseAmount(text: string, want: Want = {}): Checked<Rated> {
  const wanted = want.unit === undefined ? undefined : unitOf(want.unit);
  const reader = new AmountReader(text, wanted, want);
  const rated = reader.read();
  return rated === undefined ? refuse(reader.issue) : accept(rated);
}

/** Is this what people write when a display shows over-limit? */
export function isOverLimit(text: string): boolean {
  return /^(o\.?l\.?|∞|inf(inity)?|open|over[- ]?limit|over[- ]?load)$/i.test(text.trim());
}

interface Atom {
  readonly digits: string;
  readonly exponent: number;
  readonly unit: Unit | undefined;
  readonly bare: boolean;
  readonly text: string;
}

const code = /(\d*)([RLFVkKMGTpnuµμm])(\d+)(?![\d,]|\.\d)/y;
const plain = /[+-]?(?:\d+(?:[.,]\d+)?|[.,]\d+)(?:[eE][+-]?\d+)?(?![\d,])/y;
const suffix = /(\s*)((?:1?\/min|[A-Za-zΩΩµμ°℃%](?:[A-Za-zΩΩµμ°℃%/·]|\.(?=[A-Za-z])| (?=[A-Za-z]))*)?)/y;

class AmountReader {
  #at = 0;
  /** Unit written at the far end of a range: `15..30 mA`. */
  #farUnit: Unit | undefined;
  readonly #text: string;
  readonly #whole: string;
  readonly #wanted: Unit | undefined;
  readonly #want: Want;
  #problem: { code: string; expected: string; hint?: string } | undefined;

  constructor(text: string, wanted: Unit | undefined, want: Want) {
    this.#whole = text;
    this.#text = text.replaceAll("−", "-").replaceAll("–", "-").trim();
    this.#wanted = wanted;
    this.#want = want;
  }

  get issue(): Issue {
    const problem = this.#problem ?? { code: "quantity.not-an-amount", expected: this.#example };
    const { file, line, at } = this.#want;
    return {
      code: problem.code,
      severity: "error",
      ...(file === undefined ? {} : { file }),
      ...(line === undefined ? {} : { line }),
      at: at ?? [],
      found: JSON.stringify(this.#whole),
      expected: problem.expected,
      ...(problem.hint === undefined ? {} : { hint: problem.hint }),
    };
  }

  read(): Rated | undefined {
    if (this.#text.length > 200) return this.#fail("quantity.too-long", "an amount of at most 200 characters");
    const [body, source] = this.#splitSource();
    if (this.#problem !== undefined) return undefined;
    if (isOverLimit(body)) return this.#open(source);
    const first = this.#atom(body);
    if (first === undefined) return undefined;
    const rest = body.slice(this.#at).trimStart();
    const shape = this.#shape(first, rest);
    if (shape === undefined) return undefined;
    return this.#sane({ ...shape, ...this.#unitCode(first), ...(source === undefined ? {} : { source }) });
  }

  #shape(first: Atom, rest: string): Omit<Rated, "unit" | "source"> | undefined {
    if (rest === "") {
      const value = this.#value(first);
      return value === undefined ? undefined : { nominal: value, lo: value, hi: value, spread: "exact" };
    }
    const range = /^(?:\.\.|-(?!.*\+))\s*(?=[\d.,+RkKMpnuµμm-])/.exec(rest);
    if (range !== null) return this.#range(first, rest.slice(range[0].length));
    return this.#tolerance(first, rest);
  }

  #range(low: Atom, restText: string): Omit<Rated, "unit" | "source"> | undefined {
    const high = this.#atom(restText, 0);
    if (high === undefined) return undefined;
    if (restText.slice(this.#at).trim() !== "") return this.#fail("quantity.not-an-amount", this.#example);
    // `15..30 mA` is 15 mA to 30 mA; `2..15k` might be 2 or 2k, so it is asked
    if (low.bare && !high.bare && high.unit === undefined) {
      return this.#fail(
        "quantity.range-prefix",
        "the same prefix at both ends of a range",
        `Write ${low.text}${high.text.slice(high.digits.length).trim()}..${high.text} or spell both out.`,
      );
    }
    const lo = this.#value(low.bare ? { ...low, exponent: high.exponent, unit: high.unit } : low);
    const hi = this.#value(high.bare ? { ...high, unit: low.unit } : high);
    this.#farUnit = high.unit;
    if (lo === undefined || hi === undefined) return undefined;
    if (lo > hi) return this.#fail("quantity.range-order", "a range from low to high", "Swap the two ends.");
    if (lo === hi) return { nominal: lo, lo, hi, spread: "exact" };
    return { nominal: lo > 0 ? Math.sqrt(lo) * Math.sqrt(hi) : (lo + hi) / 2, lo, hi, spread: "range" };
  }

  #tolerance(first: Atom, rest: string): Omit<Rated, "unit" | "source"> | undefined {
    const nominal = this.#value(first);
    if (nominal === undefined) return undefined;
    const both = /^(?:±|\+\s*\/?\s*-)\s*(\S.*)$/.exec(rest);
    if (both?.[1] !== undefined) {
      const by = this.#deviation(both[1], first, nominal);
      return by === undefined ? undefined : this.#spread(nominal, by, by);
    }
    const sides = /^([+-])\s*(\d[^+-]*?)\s*\/?\s*(?:([+-])\s*(\d[^+-]*))?$/.exec(rest);
    if (sides?.[2] === undefined || sides[1] === sides[3]) return this.#fail("quantity.not-an-amount", this.#example);
    const percent = /%\s*$/.test(rest);
    const withUnit = (text: string): string => (percent && !text.includes("%") ? `${text}%` : text);
    const one = this.#deviation(withUnit(sides[2]), first, nominal);
    const other = sides[4] === undefined ? 0 : this.#deviation(withUnit(sides[4]), first, nominal);
    if (one === undefined || other === undefined) return undefined;
    return sides[1] === "+" ? this.#spread(nominal, other, one) : this.#spread(nominal, one, other);
  }

  #deviation(text: string, first: Atom, nominal: number): number | undefined {
    const atom = this.#atom(text.trim(), 0);
    if (atom === undefined || text.trim().slice(this.#at).trim() !== "") {
      return this.#fail("quantity.tolerance", "a tolerance like ±10%, +5-10% or ±0.2");
    }
    if (atom.unit?.code === "%" && first.unit?.code !== "%") return (Number(atom.digits) / 100) * Math.abs(nominal);
    if (atom.bare && first.exponent !== 0) {
      const hint = `Write ±${atom.digits}% or the unit behind the tolerance.`;
      return this.#fail("quantity.tolerance", "a tolerance in per cent or with its unit", hint);
    }
    if (atom.bare) return this.#value({ ...atom, unit: first.unit });
    const kelvin = atom.unit?.code === "K" && (first.unit ?? this.#wanted)?.dimension === "temperature";
    return this.#value(kelvin ? { ...atom, unit: first.unit ?? this.#wanted } : atom);
  }

  #spread(nominal: number, below: number, above: number): Omit<Rated, "unit" | "source"> {
    if (below === 0 && above === 0) return { nominal, lo: nominal, hi: nominal, spread: "exact" };
    return { nominal, lo: nominal - below, hi: nominal + above, spread: "tolerance" };
  }

  /** One number with its suffix, from `from` on; `#at` is left behind it. */
  #atom(text: string, from = 0): Atom | undefined {
    code.lastIndex = from;
    const coded = code.exec(text);
    if (coded !== null) {
      const [all, whole = "", letter = "", part = ""] = coded;
      const own = letter === "R" || letter === "L" ? "Ohm" : letter === "F" || letter === "V" ? letter : undefined;
      const exponent = letter === "L" ? -3 : (prefixExponent.get(letter) ?? 0);
      const tail = this.#suffix(text, from + all.length);
      if (tail === undefined || (tail.exponent !== 0 && tail.unit === undefined)) {
        return this.#fail("quantity.not-an-amount", this.#example);
      }
      const digits = `${whole === "" ? "0" : whole}.${part}`;
      const unit = own === undefined ? tail.unit : unitOf(own);
      return { digits, exponent: exponent + tail.exponent, unit, bare: false, text: text.slice(from, this.#at) };
    }
    plain.lastIndex = from;
    const number = plain.exec(text);
    if (number === null) return this.#fail("quantity.not-an-amount", this.#example);
    const digits = number[0];
    if (/^[+-]?[1-9]\d{0,2},\d{3}$/.test(digits)) {
      const [whole = "", part = ""] = digits.split(",");
      return this.#fail(
        "quantity.comma",
        "a decimal point, or no comma at all",
        `Write ${whole}${part} or ${whole}.${part}.`,
      );
    }
    const tail = this.#suffix(text, from + digits.length);
    if (tail === undefined) return undefined;
    const bare = tail.exponent === 0 && tail.unit === undefined;
    return { digits: digits.replace(",", "."), ...tail, bare, text: text.slice(from, this.#at).trim() };
  }

  #suffix(text: string, from: number): { exponent: number; unit: Unit | undefined } | undefined {
    suffix.lastIndex = from;
    const found = suffix.exec(text);
    const space = found?.[1] ?? "";
    const name = (found?.[2] ?? "").trim();
    this.#at = name === "" ? from : from + (found?.[0].length ?? 0);
    const read = readSuffix(name, this.#wanted, space === "");
    if (read !== undefined) return { exponent: read.exponent, unit: read.unit };
    const hint = `${JSON.stringify(name)} is no unit or prefix known here.`;
    return this.#fail("quantity.unknown-unit", this.#example, hint);
  }

  /** The atom's value in the wanted unit, or in its own unit where none is wanted. */
  #value(atom: Atom): number | undefined {
    const value = scaled(atom.digits, atom.exponent);
    const unit = atom.unit;
    if (unit === undefined) return value;
    const into = this.#wanted ?? (unit.code === "%" ? unitOf("1") : unit);
    if (unit.dimension !== into.dimension) {
      return this.#fail("quantity.wrong-unit", `${into.says}, such as ${example(into)}`, `This is in ${unit.says}.`);
    }
    return unit.factor === into.factor ? value : (value * unit.factor) / into.factor;
  }

  #unitCode(first: Atom): { unit?: UnitCode } {
    const unit = this.#wanted ?? first.unit ?? this.#farUnit;
    return unit === undefined ? {} : { unit: unit.code === "%" && this.#wanted === undefined ? "1" : unit.code };
  }

  #sane(rated: Rated): Rated | undefined {
    if (![rated.nominal, rated.lo, rated.hi].every(Number.isFinite)) {
      return this.#fail("quantity.not-finite", "a finite number");
    }
    const unit = rated.unit === undefined ? undefined : unitOf(rated.unit);
    if (this.#want.positive === true && rated.lo <= 0) {
      return this.#fail("quantity.not-positive", `${unit?.says ?? "a number"} above zero`);
    }
    if (unit?.signed === false && rated.lo < 0) {
      return this.#fail("quantity.negative", `${unit.says} of zero or more`);
    }
    return rated;
  }

  #open(source: Source | undefined): Rated | undefined {
    if (this.#want.open !== true) return this.#fail("quantity.open", this.#example, "OL is no value here.");
    const value = Number.POSITIVE_INFINITY;
    return {
      nominal: value,
      lo: value,
      hi: value,
      spread: "exact",
      ...(this.#wanted === undefined ? {} : { unit: this.#wanted.code }),
      ...(source === undefined ? {} : { source }),
    };
  }

  #splitSource(): readonly [string, Source | undefined] {
    const at = this.#text.indexOf("@");
    if (at < 0) return [this.#text, undefined];
    const found = /^@\s*([CMDPSIR])(?:\s+n\s*=\s*(\d+))?(?:\s+(\S.*))?$/.exec(this.#text.slice(at).trim());
    if (found === null) {
      this.#fail("quantity.source-mark", "a source mark @C @M @D @P @S @I or @R, then n=6 or a note");
      return [this.#text, undefined];
    }
    const [, mark, n, note] = found;
    const source: Source = {
      // the pattern lets no other letter through
      mark: mark as Source["mark"],
      ...(n === undefined ? {} : { n: Number(n) }),
      ...(note === undefined ? {} : { note }),
    };
    return [this.#text.slice(0, at).trim(), source];
  }

  get #example(): string {
    if (this.#wanted === undefined) return "an amount such as 26, 3k3, 0.47 µF, 3k3 ±10% or 2k..15k";
    return `${this.#wanted.says}, such as ${example(this.#wanted)}`;
  }

  /** The first problem is the one reported. */
  #fail(code: string, expected: string, hint?: string): undefined {
    this.#problem ??= { code, expected, ...(hint === undefined ? {} : { hint }) };
    return undefined;
  }
}

/** Decimal digits times a power of ten, rounded once: 0.47 µ is the double nearest to 4.7e-7. */
function scaled(digits: string, exponent: number): number {
  const [mantissa = "", own = "0"] = digits.toLowerCase().split("e");
  return Number(`${mantissa}e${Number(own) + exponent}`);
}

function example(unit: Unit): string {
  if (unit.code === "Ohm") return "26, 26R5, 3k3 or 3.3 kΩ";
  if (unit.code === "F") return "8µ or 0.47 µF";
  if (unit.code === "1") return "0.25 or 25 %";
  return unit.prefixes.includes("m") ? `12 ${unit.symbol} or 20 m${unit.symbol}` : `12 ${unit.symbol}`;
}
