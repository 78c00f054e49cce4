import { expect, test } from "vitest";
import { sentence } from "./sentence.ts";

test("the third event of a list is number 3 in the sentence, and index 2 in the data", () => {
  const issue = { code: "job.x", severity: "error", at: ["events", 2, "opened"], found: "a", expected: "b" } as const;
  expect(sentence({ ...issue, file: "job.yaml", line: 9 })).toBe(
    "job.yaml:9  events.3.opened  [job.x]\n  found a; expected b",
  );
});
