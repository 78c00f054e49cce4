import { array, assert, constantFrom, property, string } from "fast-check";
import { expect, test } from "vitest";
import { csvRows, csvText } from "./index.ts";

const rows = (text: string, separator = ",") => [...csvRows(text, separator)];

test("quotes hold separators, line breaks and doubled quotes; lines are counted on (RFC 4180, 2.5 to 2.7)", () => {
  expect(rows('a,b\r\n"x, y","two\nlines"\r\n\r\n"say ""so""",2\n')).toEqual([
    { line: 1, fields: ["a", "b"] },
    { line: 2, fields: ["x, y", "two\nlines"] },
    { line: 5, fields: ['say "so"', "2"] },
  ]);
});

test("a byte order mark is passed over, a lone CR ends a line, a quote inside a bare field is a letter", () => {
  expect(rows('\uFEFFa;1\rb;2"\r', ";").map(({ fields }) => fields)).toEqual([
    ["a", "1"],
    ["b", '2"'],
  ]);
});

test("a quote that is never closed is told", () => {
  expect(rows('a,"b\nc,d')).toEqual([{ line: 1, fields: ["a", "b\nc,d"], isUnclosed: true }]);
});

test("what is written is read back the same, whatever stands in the fields", () => {
  const field = string({ unit: constantFrom(...'ab ,";\r\né\t') });
  const table = array(array(field, { minLength: 2, maxLength: 4 }), { maxLength: 5 });
  const isSame = property(table, (written) => {
    // A row of empty fields alone cannot be told from an empty line.
    const full = written.map((row) => ["x", ...row]);
    expect(rows(csvText(full)).map(({ fields }) => fields)).toEqual(full);
  });
  assert(isSame, { numRuns: 500, seed: 7 });
});
