import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Checked } from "../issue/index.ts";
import { readTree } from "./read-tree.ts";
import type { Tree } from "./tree.ts";

/** The tree as plain values, for comparing. */
function plain(tree: Tree): unknown {
  if (tree.is === "text") return tree.text;
  if (tree.is === "list") return tree.items.map(plain);
  return Object.fromEntries([...tree.entries].map(([key, entry]) => [key, plain(entry.value)]));
}

function codes(checked: Checked<unknown>): readonly string[] {
  return checked.ok ? [] : checked.issues.map((issue) => issue.code);
}

describe("readTree", () => {
  it("keeps NO, on, 1e3, pin 11, 0R2, 010 and ~ as the text they are", () => {
    const tree = readTree("a: NO\nb: {c: on, 11: 1e3, d: 0R2}\ne: [010, ~, null, 2024-01-01]\n");
    expect(tree.ok && plain(tree.value)).toEqual({
      a: "NO",
      b: { "11": "1e3", c: "on", d: "0R2" },
      e: ["010", "~", "null", "2024-01-01"],
    });
  });

  it("reads a key with nothing behind it as an empty text, in block and in flow", () => {
    const tree = readTree("a:\nb: {motor-out: , heat: x}\n");
    expect(tree.ok && plain(tree.value)).toEqual({ a: "", b: { "motor-out": "", heat: "x" } });
  });

  it("gives each key and value its line, counted from 1", () => {
    const tree = readTree("# head\na: 1\nb:\n  c: [2,\n    3]\n");
    if (!tree.ok || tree.value.is !== "map") throw new Error("not a map");
    const b = tree.value.entries.get("b");
    expect(b?.line).toBe(3);
    const c = b?.value.is === "map" ? b.value.entries.get("c") : undefined;
    expect(c?.line).toBe(4);
    expect(c?.value.is === "list" && c.value.items.map((item) => item.line)).toEqual([4, 5]);
  });

  it("reads JSON, since JSON is YAML", () => {
    const tree = readTree('{"a": [1, true, {"b": "x, y: z"}]}');
    expect(tree.ok && plain(tree.value)).toEqual({ a: ["1", "true", { b: "x, y: z" }] });
  });

  it("names line 3 for the second of two equal keys on lines 1 and 3", () => {
    const tree = readTree("a: 1\nb: 2\na: 3\n", "sheet.yaml");
    expect(tree.ok || tree.issues).toMatchObject([{ code: "tree.key-twice", file: "sheet.yaml", line: 3, at: ["a"] }]);
  });

  it("refuses both an anchor and its alias, so that no bomb can go off", () => {
    expect(codes(readTree("a: &x 1\nb: *x\n"))).toEqual(["tree.alias", "tree.alias"]);
  });

  it("refuses a bomb of 9 levels of 9 aliases in under a second", () => {
    const levels = Array.from({ length: 9 }, (_, i) => {
      const inner = i === 0 ? "lol" : `*a${i - 1}`;
      return `a${i}: &a${i} [${Array.from({ length: 9 }, () => inner).join(", ")}]`;
    });
    const before = performance.now();
    expect(codes(readTree(levels.join("\n")))).toContain("tree.alias");
    expect(performance.now() - before).toBeLessThan(1000);
  });

  it("refuses 50 MB in under 50 ms, without looking at it", () => {
    const text = "a: 1\n".repeat(10_000_000);
    const before = performance.now();
    expect(codes(readTree(text))).toEqual(["tree.too-long"]);
    expect(performance.now() - before).toBeLessThan(50);
  });

  it.each([
    ["a million opening brackets", "[".repeat(1_000_000)],
    ["a million opening braces with keys", "{a: ".repeat(400_000)],
    ["900,000 dashes on one line", "- ".repeat(900_000)],
    ["41 flow levels", `${"[".repeat(41)}${"]".repeat(41)}`],
    ["1,900 levels by indentation", Array.from({ length: 1900 }, (_, i) => `${" ".repeat(i)}a:`).join("\n")],
  ])("refuses %s as too deep", (_, text) => {
    expect(codes(readTree(text))).toContain("tree.too-deep");
  });

  it("reads 40 levels", () => {
    expect(readTree(`${"[".repeat(40)}x${"]".repeat(40)}`).ok).toBe(true);
  });

  it("refuses a tag and a list as a key", () => {
    expect(codes(readTree("a: !!int 3\n"))).toEqual(["tree.tag"]);
    expect(codes(readTree("[1, 2]: 3\n"))).toEqual(["tree.key"]);
  });

  it("says what to do about a bracket left open on line 2", () => {
    const tree = readTree("a: 1\nb: [1, 2\nc: 3\n", "x.yaml");
    expect(tree.ok || tree.issues[0]).toMatchObject({ code: "tree.syntax", file: "x.yaml" });
  });

  it("refuses a second document in one file, and reads a byte order mark and Windows line ends away", () => {
    const two = readTree("a: 1\n---\nb: 2\n");
    expect(two.ok || two.issues[0]).toMatchObject({ code: "tree.syntax", hint: expect.stringContaining("---") });
    const windows = readTree("\uFEFFa: 1\r\nb: x\r\n");
    expect(windows.ok && plain(windows.value)).toEqual({ a: "1", b: "x" });
  });

  it("never throws on 2,000 random and mutated texts", () => {
    const sheet =
      "format: x/1\nparts:\n  heater: {kind: heater, P: 2400 W +5-10% @C, common: h}\nsigns: {a: {ask: 'b?'}}\n";
    const mutated = fc
      .array(fc.tuple(fc.nat(sheet.length), fc.string({ maxLength: 3, unit: "binary" })), { maxLength: 6 })
      .map((edits) => edits.reduce((text, [at, put]) => text.slice(0, at) + put + text.slice(at + put.length), sheet));
    fc.assert(
      fc.property(fc.oneof(mutated, fc.string({ unit: "binary", maxLength: 60 })), (text) => {
        const tree = readTree(text);
        return tree.ok || tree.issues.length > 0;
      }),
      { seed: 7, numRuns: 2000 },
    );
  });
});
