import { accept, type Checked, refuse } from "../issue/index.ts";
import type { Source } from "../quantity/index.ts";
import type { Place } from "./place.ts";

const marks: ReadonlyMap<string, Source["mark"]> = new Map(
  (["C", "M", "D", "P", "S", "I", "R"] as const).map((mark) => [mark, mark]),
);

/** What stands behind `source:`: a mark, then in any order `n=6` and a note: `C`, `S n=6`, `R IEC 60062 table 1`. */
export function readSource(text: string, place: Place): Checked<Source> {
  const [first = "", ...rest] = text.trim().split(/\s+/);
  const mark = marks.get(first);
  if (mark === undefined) {
    return refuse({
      code: "read.source",
      severity: "error",
      ...place,
      found: `"${first}"`,
      expected:
        "C common practice, M from memory, D worked out, P plate, S the shop's own, I invented, R read in (title)",
    });
  }
  const count = rest.map((word) => /^n=(\d+)$/.exec(word)?.[1]).find((digits) => digits !== undefined);
  const note = rest.filter((word) => !/^n=\d+$/.test(word)).join(" ");
  return accept({ mark, ...(note === "" ? {} : { note }), ...(count === undefined ? {} : { n: Number(count) }) });
}
