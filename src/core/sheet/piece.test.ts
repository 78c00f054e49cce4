import { describe, expect, it } from "vitest";
import { shippedLibrary } from "../../../test/machines/shipped.ts";
import { lampSheet, machineOf, refusals, sheetOf } from "../../../test/sheets/read.ts";
import { assemble, checkSheet, readLibrary } from "./index.ts";

const BELL = `format: faultwright-piece/1
piece: bell
says: a second lamp on the same switch
source: I
parts:
  bell: {kind: lamp, says: second lamp, a: lit, b: N, share: 2}
joint-rows: {bell tabs: {share: 0.5, at: [bell]}}
`;

const withPiece = (text: string) => {
  const read = readLibrary(new Map(), new Map(), new Map([["bell.yaml", text]]));
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return { ...shippedLibrary(), pieces: read.value.pieces };
};

describe("a shared piece", () => {
  it("is in a machine whose sheet uses it, and meets the sheet at wires of fixed names", () => {
    const library = withPiece(BELL);
    const sheet = sheetOf(lampSheet({ head: "source: I\nuse: bell" }), library);
    expect(checkSheet(sheet, library)).toEqual([]);
    const [bell, lamp] = ["bell", "lamp"].map((id) => machineOf(sheet, library).parts.find((part) => part.id === id));
    expect(bell?.share).toBe(2);
    expect(bell?.instance).toEqual(lamp?.instance);
  });

  it("is not in a machine whose sheet does not, and one of 3 % here may be one of 7 % there", () => {
    const library = withPiece(BELL);
    const without = machineOf(sheetOf(lampSheet(), library), library);
    expect(without.parts.some(({ id }) => id === "bell")).toBe(false);
    const more = sheetOf(lampSheet({ head: "source: I\nuse: [bell]", parts: "  bell: {share: 7}" }), library);
    expect(machineOf(more, library).parts.find(({ id }) => id === "bell")?.share).toBe(7);
  });

  it("is named with its file and line where it is wrong, and the sheet with its own", () => {
    const library = withPiece(BELL.replace("b: N,", "b: N, watts-of-heat: 3 W,"));
    const text = lampSheet({ head: "source: I\nuse: bell", parts: "  bell: {loudness: 3}" });
    const assembled = assemble(sheetOf(text, library), library, new Map());
    if (assembled.ok) throw new Error("it was assembled");
    const places = assembled.issues.map(({ file, line, found }) => ({ file, line, found }));
    const sheetLine = text.split("\n").findIndex((line) => line.includes("loudness")) + 1;
    expect(places).toEqual([
      { file: "bell.yaml", line: 6, found: '"watts-of-heat"' },
      { file: "sheet.yaml", line: sheetLine, found: '"loudness"' },
    ]);
  });

  it("is refused with a condition on slots, under an unknown name, and under a name that the sheet gives its own", () => {
    const condition = readLibrary(
      new Map(),
      new Map(),
      new Map([["bell.yaml", BELL.replace("share: 2", "share: 2, if: a is b")]]),
    );
    expect(condition.ok ? [] : condition.issues.map(({ code }) => code)).toEqual(["sheet.piece.condition"]);
    const library = withPiece(BELL);
    const [unknown] = refusals(lampSheet({ head: "source: I\nuse: bel" }), library);
    expect(unknown).toMatchObject({ code: "sheet.piece.unknown", hint: "Did you mean bell?" });
    const [twice] = refusals(lampSheet({ rest: "pieces: {bell: {wires: {lit: red}}}" }), library);
    expect(twice?.code).toBe("sheet.piece.twice");
  });
});
