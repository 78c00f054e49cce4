/** One row of separated text. */
export interface CsvRow {
  /** 1-based line on which the row begins. */
  readonly line: number;
  readonly fields: readonly string[];
  /** A quote that was opened and never closed: the row holds all the rest of the text. */
  readonly isUnclosed?: true;
}

/**
 * The rows of separated text, one at a time, so that a large file never stands in memory twice. Empty lines are passed over; quoted
 * fields may hold separators, doubled quotes and line breaks; a quote inside a bare field is a letter like any other.
 *
 * @source RFC 4180, section 2, with any separator; a lone CR or LF ends a line too
 */
export function* csvRows(text: string, separator: string): Generator<CsvRow> {
  let at = text.startsWith("\uFEFF") ? 1 : 0;
  let line = 1;
  while (at < text.length) {
    const end = lineEnd(text, at);
    const bare = text.slice(at, end);
    if (!bare.includes('"')) {
      if (bare.trim() !== "") yield { line, fields: bare.split(separator) };
      at = afterBreak(text, end);
      line++;
      continue;
    }
    const row = quotedRow(text, at, separator);
    yield { line, fields: row.fields, ...(row.isUnclosed ? { isUnclosed: true } : {}) };
    line += row.breaks + 1;
    at = afterBreak(text, row.end);
  }
}

function quotedRow(text: string, start: number, separator: string) {
  const fields: string[] = [];
  let at = start;
  let breaks = 0;
  let isUnclosed = false;
  for (;;) {
    if (text[at] === '"') {
      const close = closingQuote(text, at + 1);
      isUnclosed ||= close < 0;
      const inside = text.slice(at + 1, close < 0 ? text.length : close);
      breaks += inside.match(/\r\n|\r|\n/g)?.length ?? 0;
      at = close < 0 ? text.length : close + 1;
      const rest = fieldEnd(text, at, separator);
      fields.push(inside.replaceAll('""', '"') + text.slice(at, rest));
      at = rest;
    } else {
      const rest = fieldEnd(text, at, separator);
      fields.push(text.slice(at, rest));
      at = rest;
    }
    if (text[at] !== separator) return { fields, end: at, breaks, isUnclosed };
    at++;
  }
}

/** Position of the quote that closes a field begun before `from`, or -1. */
function closingQuote(text: string, from: number): number {
  for (let at = text.indexOf('"', from); at >= 0; at = text.indexOf('"', at + 2)) {
    if (text[at + 1] !== '"') return at;
  }
  return -1;
}

function fieldEnd(text: string, from: number, separator: string): number {
  let at = from;
  while (at < text.length && text[at] !== separator && text[at] !== "\n" && text[at] !== "\r") at++;
  return at;
}

function lineEnd(text: string, from: number): number {
  const feed = text.indexOf("\n", from);
  const end = feed < 0 ? text.length : feed;
  const line = text.slice(from, end);
  const back = line.indexOf("\r");
  return back < 0 ? end : from + back;
}

function afterBreak(text: string, end: number): number {
  return text[end] === "\r" && text[end + 1] === "\n" ? end + 2 : end + 1;
}
