import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { shippedLibrary } from "../../../test/machines/shipped.ts";
import { lampSheet, refusals, sheetOf, smallDryerText } from "../../../test/sheets/read.ts";
import { checkSheet } from "./check.ts";
import { readHouse } from "./house.ts";
import { readLibrary } from "./library.ts";
import { readSheet } from "./read.ts";

const library = shippedLibrary();

test("a sheet knows its title, its house, its 40 jobs of weight and its 5 slots", () => {
  const sheet = sheetOf(smallDryerText, library);
  expect(sheet).toMatchObject({
    title: "small dryer",
    weightJobs: 40,
    source: { mark: "I" },
    supply: { house: "single 230", class: "I" },
  });
  expect([...sheet.slots.keys()]).toEqual(["air", "stages", "motor-watch", "control", "condensate"]);
  expect([...sheet.pieces.keys()]).toContain("second-stage");
});

test("words of YAML that look like something else stay words: a pin NO, a slot answer on, a wire 1e3", () => {
  const text = lampSheet({
    parts: "  f: {kind: lamp, a: 1e3, b: NO, share: 1}\n  g: {kind: lamp, a: 1e3, b: NO, share: 1}",
    rest: "slots: {power: {ask: Which?, variants: {on: {share: 50, look: yes}, off: {share: 50, look: no}}}}",
  });
  const sheet = sheetOf(text, library);
  expect([...(sheet.slots.get("power")?.variants.keys() ?? [])]).toEqual(["on", "off"]);
  expect(checkSheet(sheet, library).map(({ found }) => found)).toEqual(
    expect.arrayContaining([expect.stringContaining("f on wires of its own")]),
  );
});

describe("what is wrong is said with line, found, expected and hint", () => {
  test.each([
    ["an unknown section", lampSheet({ rest: "sings: {}" }), "read.unknown-key", "Did you mean signs?"],
    [
      "an unknown house",
      lampSheet().replace("single 230", "single 203"),
      "sheet.house.unknown",
      "Did you mean single 230?",
    ],
    ["no supply", lampSheet().replace(/supply: .*\n/, ""), "read.missing", undefined],
    ["another format", lampSheet().replace("sheet/1", "sheet/9"), "read.choice", "Did you mean faultwright-sheet/1?"],
    [
      "shares of 90",
      lampSheet({ rest: "slots: {s: {ask: Q, variants: {a: {share: 40}, b: {share: 50}}}}" }),
      "sheet.slot.shares",
      undefined,
    ],
    [
      "a share of 140",
      lampSheet({ rest: "slots: {s: {ask: Q, variants: {a: {share: 140}}}}" }),
      "read.number",
      undefined,
    ],
    [
      "an unknown piece",
      lampSheet({ rest: "pieces: {board: {}}\nslots: {s: {ask: Q, variants: {a: {share: 100, use: bord}}}}" }),
      "sheet.piece.unknown",
      "Did you mean board?",
    ],
    [
      "a condition on no slot",
      lampSheet({ rest: "signs: {s: {ask: Q, table: {else: .1}, only-if: air is vented}}" }),
      "sheet.slot-test",
      undefined,
    ],
    [
      "slots that wait for one another",
      lampSheet({
        rest: "slots: {s: {ask: Q, only-if: t is b, variants: {a: {share: 100}}}, t: {ask: Q, only-if: s is a, variants: {b: {share: 100}}}}",
      }),
      "sheet.slot.cycle",
      undefined,
    ],
    [
      "a part with a name of the house",
      lampSheet({ parts: "  rcd: {kind: lamp, a: lit, b: N, share: 1}" }),
      "sheet.name.house",
      "Call the part something else.",
    ],
    ["a weight in kilograms", lampSheet({ head: "source: I\nweight: 4 kg" }), "sheet.weight", undefined],
    ["a key twice", lampSheet({ parts: "  lamp: {kind: lamp, a: L, b: N}" }), "tree.key-twice", undefined],
    ["an alias", lampSheet({ rest: "note: &a x\ncodes: {b: *a}" }), "tree.alias", undefined],
  ])("%s", (_, text, code, hint) => {
    const found = refusals(text, library).filter((issue) => issue.code === code);
    expect(found.length).toBeGreaterThan(0);
    expect(found[0]).toMatchObject({ file: "sheet.yaml", ...(hint === undefined ? {} : { hint }) });
    expect(found[0]?.line).toBeGreaterThan(0);
  });

  test("all of them in one go", () => {
    const text = lampSheet({ rest: "sings: {}\nslots: {s: {ask: Q, variants: {a: {share: 40}}}}" }).replace(
      "class: I",
      "class: X",
    );
    expect(
      refusals(text, library)
        .map(({ code }) => code)
        .sort(),
    ).toEqual(["read.choice", "read.unknown-key", "sheet.slot.shares"]);
  });
});

test("50 MB are refused within a second", () => {
  const before = performance.now();
  expect(refusals("a".repeat(50_000_000), library)).toMatchObject([{ code: "tree.too-long" }]);
  expect(performance.now() - before).toBeLessThan(1000);
});

test("slots of 3 to the 11th combinations are refused, not multiplied out", () => {
  const slot = (n: number) => `s${n}: {ask: Q, variants: {a: {share: 33.3}, b: {share: 33.3}, c: {share: 33.4}}}`;
  const text = lampSheet({ rest: `slots: {${Array.from({ length: 11 }, (_, n) => slot(n)).join(", ")}}` });
  expect(refusals(text, library)).toMatchObject([
    { code: "sheet.slot.too-many", found: "177147 combinations of variants" },
  ]);
});

test("a sheet with lines swapped, cut or doubled is read or refused, never thrown at (seed 3)", () => {
  const lines = smallDryerText.split("\n");
  const at = fc.nat({ max: lines.length - 1 });
  const cut = fc.record({
    what: fc.constantFrom("swap", "drop", "double", "clip"),
    at,
    other: at,
    keep: fc.nat({ max: 80 }),
  });
  fc.assert(
    fc.property(fc.array(cut, { minLength: 1, maxLength: 3 }), (cuts) => {
      const changed = [...lines];
      for (const { what, at, other, keep } of cuts) {
        const line = changed[at] ?? "";
        if (what === "swap") [changed[at], changed[other]] = [changed[other] ?? "", line];
        else if (what === "drop") changed.splice(at, 1);
        else if (what === "double") changed.splice(at, 0, line);
        else changed[at] = line.slice(0, keep);
      }
      const read = readSheet(changed.join("\n"), "sheet.yaml", library);
      const issues = read.ok ? checkSheet(read.value, library) : read.issues;
      for (const issue of issues) expect(issue.expected).not.toBe("");
    }),
    { seed: 3, numRuns: 40 },
  );
});

describe("houses and libraries", () => {
  test("a house names its volts, hertz and what carries the current", () => {
    const text =
      "format: faultwright-house/1\nhouse: h\nsays: two wires\nvolts: 230\nhertz: 50 Hz\nat the plug: {lines: [cord.line]}";
    expect(readHouse(text, "h.yaml")).toMatchObject({ ok: true, value: { name: "h", volts: 230, hertz: 50 } });
  });

  test("a house without volts, or in ohms, is refused", () => {
    const text = "format: faultwright-house/1\nhouse: h\nsays: x\nvolts: 230 Ohm\nat the plug: {lines: []}";
    const house = readHouse(text, "h.yaml");
    expect(house.ok ? [] : house.issues.map(({ at }) => at.join("."))).toEqual(["volts", ""]);
  });

  test("issues of all kinds of a library come together, each with its file", () => {
    const kinds = new Map([
      ["a.yaml", "says: a\nsource: C\npins: {a: none, b: none}\nelementz: {}\nmodes: {}"],
      ["b.yaml", "sayz: b"],
    ]);
    const read = readLibrary(kinds, new Map());
    expect(read.ok).toBe(false);
    expect(new Set(read.ok ? [] : read.issues.map(({ file }) => file))).toEqual(new Set(["a.yaml", "b.yaml"]));
  });
});
