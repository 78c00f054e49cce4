import { accept, type Checked, type Issue, refuse } from "../../core/issue/index.ts";
import type { LedgerEvent } from "../../core/ledger/index.ts";
import type { Photo } from "./database.ts";

/** First line of a copy: says what the rest is. */
const HEAD = { format: "faultwright-events/1" };

/** Largest copy read back, in characters: a hundred thousand events are some 30 million, a thousand photos 300 million. */
const LARGEST = 400_000_000;

/** A photo as a line of a copy: its bytes in base 64 (RFC 4648, 4). */
export interface CopiedPhoto {
  /** SHA-256 of the bytes: its name. */
  readonly photo: string;
  readonly type: string;
  readonly base64: string;
}

/** What a copy holds. */
export interface Copy {
  readonly events: readonly LedgerEvent[];
  readonly photos: readonly CopiedPhoto[];
}

/**
 * Events as JSON Lines, one an event, in the order of their ids, and then a line a photo: an open form that any program
 * can read.
 */
export function writeCopy({ events, photos }: Copy): string {
  const sorted = [...events].sort((a, b) => (a.id < b.id ? -1 : 1));
  return `${[HEAD, ...sorted, ...photos].map((one) => JSON.stringify(one)).join("\n")}\n`;
}

/** A photo as a copy tells it. */
export async function copiedPhoto({ hash, blob }: Photo): Promise<CopiedPhoto> {
  const bytes = new Uint8Array(await blob.arrayBuffer());
  let binary = "";
  for (let from = 0; from < bytes.length; from += CHUNK)
    binary += String.fromCharCode(...bytes.subarray(from, from + CHUNK));
  return { photo: hash, type: blob.type, base64: btoa(binary) };
}

/** A photo out of a copy. */
export function photoOf({ photo, type, base64 }: CopiedPhoto): Photo {
  const bytes = Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
  return { hash: photo, blob: new Blob([bytes], { type }) };
}

/** As many arguments as every browser lets a call have. */
const CHUNK = 8192;

/**
 * Reads a copy back.
 *
 * @returns every event and photo, or every line that is neither: then nothing of the file is taken
 */
export function readCopy(text: string, file: string): Checked<Copy> {
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
  const photos: CopiedPhoto[] = [];
  lines.forEach((line, index) => {
    if (line.trim() === "") return;
    const event = eventOf(line);
    const photo = event === undefined ? photoIn(line) : undefined;
    if (event !== undefined) events.push(event);
    else if (photo !== undefined) photos.push(photo);
    else if (issues.length < 20)
      issues.push(wrong(index + 2, line.slice(0, 60), "an event with id, job, time and kind, or a photo"));
  });
  return issues.length > 0 ? refuse(...issues) : accept({ events, photos });
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

function photoIn(line: string): CopiedPhoto | undefined {
  const read = parsed(line) as Partial<CopiedPhoto> | null | undefined;
  if (typeof read !== "object" || read === null) return undefined;
  const { photo = "", type, base64 } = read;
  const isOne = /^[0-9a-f]{64}$/.test(photo) && typeof type === "string" && typeof base64 === "string";
  return isOne && /^[A-Za-z0-9+/]*={0,2}$/.test(base64) ? { photo, type, base64 } : undefined;
}

function parsed(line: string): unknown {
  try {
    return JSON.parse(line);
  } catch {
    return undefined;
  }
}
