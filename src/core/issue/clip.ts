import type { Issue } from "./issue.ts";

const LONGEST_FOUND = 200;
const LONGEST_WORDS = 1000;

/** An issue that does not carry the file it is about: what stood there, and each key on the way, cut to a line or two. */
export function clipIssue(issue: Issue): Issue {
  const isShort =
    issue.found.length <= LONGEST_FOUND &&
    issue.expected.length <= LONGEST_WORDS &&
    (issue.hint?.length ?? 0) <= LONGEST_WORDS &&
    issue.at.every((key) => typeof key === "number" || key.length <= LONGEST_FOUND);
  if (isShort) return issue;
  return {
    ...issue,
    found: clip(issue.found, LONGEST_FOUND),
    expected: clip(issue.expected, LONGEST_WORDS),
    at: issue.at.map((key) => (typeof key === "number" ? key : clip(key, LONGEST_FOUND))),
    ...(issue.hint === undefined ? {} : { hint: clip(issue.hint, LONGEST_WORDS) }),
  };
}

function clip(text: string, longest: number): string {
  return text.length <= longest ? text : `${text.slice(0, longest - 3)}...`;
}
