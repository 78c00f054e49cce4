import type { Paper, Sender } from "./paper.ts";
import { capital } from "./paper-facts.ts";

/** What is written on a tested part before it goes on the shelf. */
export interface TagFacts {
  /** Number under which the shelf knows it. */
  readonly number: string;
  readonly date: string;
  readonly part: string;
  /** "2000 W, 230 V" */
  readonly ratings: string;
  /** As the bench graded it: good, not faulted, doubtful. */
  readonly grade: string;
  readonly cleaned: boolean;
  /** Each step of its test with what was read or found, and what that says. */
  readonly tests: readonly { readonly what: string; readonly shown: string; readonly says: string }[];
  readonly from?: Sender;
}

/** The tag of a part on the shelf: what it is, its grade, and every test behind that. */
export function shelfTagOf({ number, date, part, ratings, grade, cleaned, tests, from }: TagFacts): Paper {
  return {
    kind: "tag",
    title: capital(part),
    number,
    date,
    ...(from === undefined ? {} : { from }),
    blocks: [
      { is: "paragraph", text: `Used part, tested: ${grade}${cleaned ? ", after cleaning" : ""}.`, isStrong: true },
      {
        is: "facts",
        rows: [
          ["Ratings", ratings],
          ["Shelf number", number],
        ],
      },
      {
        is: "table",
        head: [{ says: "Test" }, { says: "Shown", isFigures: true }, { says: "Says" }],
        rows: tests.map(({ what, shown, says }) => [capital(what), shown, says]),
      },
      { is: "note", text: "Measure it again beside the old one before it is fitted." },
    ],
  };
}
