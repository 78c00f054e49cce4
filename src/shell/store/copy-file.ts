import { accept, type Checked, type Issue, refuse } from "../../core/issue/index.ts";
import type { LedgerEvent } from "../../core/ledger/index.ts";

/** First line of a copy: says what the rest is. */
const HEAD = { format: "faultwright-events/1" };

/** Largest copy read back: a hundred thousand events are some 30 MB. */
const LARGEST = 64 * 1024 * 1024;

/** Events as JSON Lines, one an event, in the order of their ids: an open form that any program can read. */
export function writeCopy(events: readonly LedgerEvent[]): string {
  const sorted = [...events].sort((a, b) => (a.id < b.id ? -1 : 1));
  return `${[HEAD, ...sorted].map((one) => JSON.stringify(one)).join("\n")}\n`;
}

/**
 * Reads a copy back.
 *
 * @returns every event, or every line that is none: then nothing of the file is taken
 */
export function readCopy(text: string, file: string): Checked<readonly LedgerEvent[]> {
  const wrong = (line: number, found: string, expected: string, hint?: string): Issue => ({
    code: "copy.line",
    severity: "error",
    file,
    line,
    at: [],
    found,
    expected,
    ...(hint === undefined ? {} : { hint }),
  });
  if (text.length > LARGEST) return refuse(wrong(1, `${text.length} characters`, `at most ${LARGEST}`));
  const [head, ...lines] = text.split(/\r?\n/);
  if (formatOf(head ?? "") !== HEAD.format) {
    return refuse(
      wrong(1, (head ?? "").slice(0, 60), JSON.stringify(HEAD), "Is this a copy made by “Copy everything to a file”?"),
    );
  }
  const issues: Issue[] = [];
  const events: LedgerEvent[] = [];
  lines.forEach((line, index) => {
    if (line.trim() === "") return;
    const event = eventOf(line);
    if (event !== undefined) events.push(event);
    else if (issues.length < 20)
      issues.push(wrong(index + 2, line.slice(0, 60), "an event with id, job, time and kind"));
  });
  return issues.length > 0 ? refuse(...issues) : accept(events);
}

function formatOf(line: string): unknown {
  const read = parsed(line);
  return typeof read === "object" && read !== null && "format" in read ? read.format : undefined;
}

function eventOf(line: string): LedgerEvent | undefined {
  const read = parsed(line) as Partial<LedgerEvent> | null | undefined;
  if (typeof read !== "object" || read === null) return undefined;
  const { id, job, time, device = "", person = "", kind, body = null } = read;
  const texts = [id, job, time, device, person, kind];
  if (
    !texts.every((text) => typeof text === "string") ||
    id === "" ||
    job === "" ||
    Number.isNaN(Date.parse(time ?? ""))
  )
    return undefined;
  return { id, job, time, device, person, kind, body } as LedgerEvent;
}

function parsed(line: string): unknown {
  try {
    return JSON.parse(line);
  } catch {
    return undefined;
  }
}
