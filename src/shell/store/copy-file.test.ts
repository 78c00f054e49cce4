import { describe, expect, test } from "vitest";
import type { LedgerEvent } from "../../core/ledger/index.ts";
import { readCopy, writeCopy } from "./copy-file.ts";

const events: readonly LedgerEvent[] = ["b", "a"].map((id) => ({
  id,
  job: "j",
  time: "2026-03-01T09:00:00Z",
  device: "phone",
  person: "",
  kind: "note",
  body: "came late",
}));

describe("a copy of everything", () => {
  test("read back gives the same events, in the order of their ids", () => {
    expect(readCopy(writeCopy(events), "copy.jsonl")).toEqual({ ok: true, value: [...events].reverse(), warnings: [] });
  });

  test("a file that is no copy is refused with a way out", () => {
    expect(readCopy("volts,ohms\n1,2\n", "table.csv")).toMatchObject({
      ok: false,
      issues: [{ line: 1, found: "volts,ohms", hint: expect.stringContaining("copy") }],
    });
  });

  test("every line that is no event is told, and nothing of the file is taken", () => {
    const broken = `${writeCopy(events)}{"id":"c"}\nnot json\n`;
    const read = readCopy(broken, "copy.jsonl");
    expect(read.ok).toBe(false);
    if (!read.ok) expect(read.issues.map(({ line }) => line)).toEqual([4, 5]);
  });
});
