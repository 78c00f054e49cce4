import { describe, expect, test } from "vitest";
import type { LedgerEvent } from "../../core/ledger/index.ts";
import { copiedPhoto, photoOf, readCopy, writeCopy } from "./copy-file.ts";

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
    const read = readCopy(writeCopy({ events, photos: [] }), "copy.jsonl");
    expect(read).toEqual({ ok: true, value: { events: [...events].reverse(), photos: [] }, warnings: [] });
  });

  test("read back gives the same photos, byte for byte", async () => {
    const bytes = Uint8Array.from({ length: 20_000 }, (_, n) => (n * 7) % 256);
    const photo = { hash: "0a".repeat(32), blob: new Blob([bytes], { type: "image/jpeg" }) };
    const read = readCopy(writeCopy({ events, photos: [await copiedPhoto(photo)] }), "copy.jsonl");
    if (!read.ok) throw new Error(JSON.stringify(read.issues));
    const [back] = read.value.photos.map(photoOf);
    expect(back?.hash).toBe(photo.hash);
    expect(back?.blob.type).toBe("image/jpeg");
    expect(new Uint8Array((await back?.blob.arrayBuffer()) ?? new ArrayBuffer(0))).toEqual(bytes);
  });

  test("a file that is no copy is refused with a way out", () => {
    expect(readCopy("volts,ohms\n1,2\n", "table.csv")).toMatchObject({
      ok: false,
      issues: [{ line: 1, found: "volts,ohms", hint: expect.stringContaining("copy") }],
    });
  });

  test("every line that is no event is told, and nothing of the file is taken", () => {
    const broken = `${writeCopy({ events, photos: [] })}{"id":"c"}\nnot json\n`;
    const read = readCopy(broken, "copy.jsonl");
    expect(read.ok).toBe(false);
    if (!read.ok) expect(read.issues.map(({ line }) => line)).toEqual([4, 5]);
  });
});
