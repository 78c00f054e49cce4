import { describe, expect, it } from "vitest";
import { type Cursor, readWith } from "./cursor.ts";

/** What `read` makes of the text, or the issues as `line code at`. */
function read<T>(text: string, reader: (root: Cursor) => T | undefined): T | readonly string[] {
  const checked = readWith(text, "x.yaml", reader);
  if (checked.ok) return checked.value;
  return checked.issues.map((issue) => `${issue.line} ${issue.code} ${issue.at.join(".")}`);
}

describe("Cursor", () => {
  it("finds 4 faults in one go, each with its line and path", () => {
    const found = read("a: x\nb: maybe\nc: 1.5\nd: [1]\n", (root) => {
      root.field("a")?.number();
      root.field("b")?.yesNo();
      root.field("c")?.chance();
      root.field("d")?.text();
      return root.name;
    });
    expect(found).toEqual(["1 read.number a", "2 read.choice b", "3 read.chance c", "4 read.not-text d"]);
  });

  it("asks whether hazzards was meant to be hazards", () => {
    const checked = readWith("hazzards: 1\n", "x.yaml", (root) => {
      root.onlyKeys(["hazards", "says"]);
      return 1;
    });
    expect(checked.ok || checked.issues[0]).toMatchObject({ line: 1, hint: "Did you mean hazards?" });
  });

  it("takes a single text as a list of one, and nothing as an empty list", () => {
    expect(read("a: x\nb:\n", (root) => [root.field("a")?.words(), root.field("b")?.words()])).toEqual([["x"], []]);
  });

  it("reads .95/.05 and 30 %, and refuses 1.2", () => {
    expect(read("a: .95/.05\nb: 30 %\n", (root) => [root.field("a")?.chancePair(), root.field("b")?.chance()])).toEqual(
      [[0.95, 0.05], 0.3],
    );
    expect(read("a: 1.2/.05\n", (root) => root.field("a")?.chancePair())).toEqual(["1 read.chance a"]);
  });

  it("gives a number the nearest source: its mark, its block, the file", () => {
    const text = "source: M\na: 3k3 ±10%\nb: {source: S n=6, x: 100R, y: 100R @C}\n";
    const marks = read(text, (root) => {
      const b = root.field("b");
      return [root.field("a"), b?.field("x"), b?.field("y")].map((at) => at?.amount({ unit: "Ohm" })?.source);
    });
    expect(marks).toEqual([{ mark: "M" }, { mark: "S", n: 6 }, { mark: "C" }]);
  });

  it("refuses volts where ohms are wanted, at the line of the value", () => {
    const found = read("a:\n  b: 12 V\n", (root) => root.field("a")?.field("b")?.amount({ unit: "Ohm" })?.nominal);
    expect(found).toEqual([expect.stringMatching(/^2 quantity\.\S+ a\.b$/)]);
  });

  it("refuses a source that is no mark", () => {
    expect(read("source: Q\n", () => 1)).toEqual(["1 read.source source"]);
  });
});
