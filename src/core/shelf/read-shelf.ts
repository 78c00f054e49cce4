import type { Checked } from "../issue/index.ts";
import { readDay } from "../ledger/index.ts";
import { type Cursor, optional, readWith } from "../part/index.ts";
import { type BenchTag, GRADES, PLACES, type Shelf, type ShelfItem } from "./shelf.ts";

export const SHELF_FORMAT = "faultwright-shelf/1";
const SHELF_KEYS = ["format", "says", "shelf"] as const;
const ITEM_KEYS = ["part", "says", "where", "state", "count", "least", "price", "tag"] as const;
const TAG_KEYS = ["grade", "tested", "by", "from", "shows"] as const;
const STATES = ["new", "used"] as const;
const COUNT_MOST = 10_000;

/** A shelf file, `format: faultwright-shelf/1`, or every issue of it at once. */
export function readShelf(text: string, file?: string): Checked<Shelf> {
  return readWith(text, file, (root) => {
    root.onlyKeys(SHELF_KEYS);
    const format = root.need("format", `format: ${SHELF_FORMAT}`);
    if (format !== undefined && format.text() !== SHELF_FORMAT) format.refuse("shelf.format", SHELF_FORMAT);
    const items = (root.need("shelf", "shelf: a list of parts")?.items() ?? []).flatMap((item) => readItem(item) ?? []);
    return { says: root.field("says")?.text() ?? "", items };
  });
}

function readItem(at: Cursor): ShelfItem | undefined {
  at.onlyKeys(ITEM_KEYS);
  const part = at.need("part", "part: its kind, or an assembly's id")?.word();
  const where = at.need("where", PLACES.join(" | "))?.choice(PLACES);
  const state = at.field("state")?.choice(STATES) ?? "new";
  const count = readCount(at.need("count", "count: how many"));
  const least = readCount(at.field("least")) ?? 0;
  const tag = at.field("tag") === undefined ? undefined : readTag(at.field("tag"));
  if (state === "new" && tag !== undefined)
    at.field("tag")?.refuse("shelf.tag", "no tag on a new part", "Write state: used.", "a tag");
  if (part === undefined || where === undefined || count === undefined) return undefined;
  return {
    part,
    says: at.field("says")?.word() ?? part,
    where,
    state,
    count,
    least,
    ...optional("price", at.field("price")?.number(0, 1e6)),
    ...optional("tag", tag),
  };
}

function readCount(at: Cursor | undefined): number | undefined {
  const count = at?.number(0, COUNT_MOST);
  if (count === undefined || Number.isInteger(count)) return count;
  return at?.refuse("shelf.count", "a whole number");
}

function readTag(at: Cursor | undefined): BenchTag | undefined {
  at?.onlyKeys(TAG_KEYS);
  const grade = at?.need("grade", GRADES.join(" | "))?.choice(GRADES);
  const tested = readDay(at?.need("tested", "tested: a day"));
  if (grade === undefined || tested === undefined) return undefined;
  return {
    grade,
    tested,
    ...optional("by", at?.field("by")?.word()),
    ...optional("from", at?.field("from")?.word()),
    ...optional("shows", at?.field("shows")?.word()),
  };
}
