import { expect, test } from "vitest";
import { shippedLibrary } from "../../../test/machines/shipped.ts";
import { lampSheet, sheetOf, smallDryerText } from "../../../test/sheets/read.ts";
import type { Issue } from "../issue/index.ts";
import { checkSheet } from "./check.ts";

const library = shippedLibrary();
const check = (text: string): readonly Issue[] => checkSheet(sheetOf(text, library), library);
const codes = (text: string): readonly string[] => [...new Set(check(text).map(({ code }) => code))];

test("the small dryer and the lamp have nothing to say in any combination", () => {
  expect(check(smallDryerText)).toEqual([]);
  expect(check(lampSheet())).toEqual([]);
});

const board = (rail: string) =>
  `  supply: {kind: board-supply, ${rail}L: lit, N: N, v12: v12, v5: v5, com: com, share: 1}
  logic: {kind: board-logic, v5: v5, com: com, share: 1}
  out: {kind: board-output, out: v12, com: com, share: 1}
  spare: {kind: relay, A1: v12, A2: com, 11: lit, 14: N2, share: 1}
  end: {kind: lamp, a: N2, b: N, share: 1}`;

/** What each rule is triggered by: code, and more lines of the lamp's sheet. */
const rules: readonly (readonly [string, Parameters<typeof lampSheet>[0]])[] = [
  ["sheet.wire.one-end", { parts: "  loose: {kind: lamp, a: lit, b: nowhere, share: 1}" }],
  ["sheet.pin.unwired", { parts: "  short: {kind: lamp, a: lit, share: 1}" }],
  ["sheet.part.word", { parts: "  odd: {kind: lamp, a: lit, b: N, colour: red, share: 1}" }],
  [
    "sheet.part.floating",
    { parts: "  f1: {kind: lamp, a: x, b: y, share: 1}\n  f2: {kind: lamp, a: x, b: y, share: 1}" },
  ],
  [
    "sheet.plug.same-wire",
    {
      rest: "plugs: {X1: {of: lamp, pins: {1: lit}}, X2: {of: lamp, pins: {1: lit}}}",
    },
  ],
  ["sheet.part.silent", { parts: board("") }],
  ["sheet.step.output", { rest: "service-test: {outputs: [heater-out]}" }],
  ["sheet.guard.unused", { rest: "guards: {heat: hand > 0}" }],
  ["sheet.part.chatters", { parts: "  cut: {kind: cut-out, opens: 90, closes: 120, a: lit, b: N, share: 1}" }],
  ["sheet.joint-row.nothing", { rest: "joint-rows: {row: {share: 1, at: [heather]}}" }],
  ["sheet.fault.unknown", { rest: "links: [{cause: lamp, victim: switch/gone, p: .5}]" }],
  ["sheet.part.unknown", { rest: "why-open: {fuse: {itself: 1}}" }],
  ["sheet.source.none", { head: "" }],
  [
    "sheet.variant.look",
    {
      rest: "slots: {s: {ask: Which?, variants: {a: {share: 50}, b: {share: 50, look: blue}}}}",
    },
  ],
  [
    "sheet.variant.never",
    {
      rest: "slots: {s: {ask: Which?, variants: {a: {share: 50, look: x}, b: {share: 50, look: y}}}, t: {ask: Which?, variants: {c: {share: 100, look: z, only-if: s is a}}}}",
    },
  ],
  [
    "sheet.edge.open",
    {
      rest: "slots: {s: {ask: Which?, edge: [lit, far], variants: {a: {share: 100, look: x}}}}",
    },
  ],
  ["formula.unknown-name", { rest: "quantities: {q: lump.watts}" }],
  ["read.chance", { rest: "links: [{cause: lamp, victim: switch, p: 1.5}]" }],
  [
    "sheet.access.unknown",
    { parts: "  hidden: {kind: lamp, a: lit, b: N, access: bakc, share: 1}", rest: "access: {back: {min: 1/1}}" },
  ],
  ["sheet.access.none", { rest: "access: {back: {min: 1/1}}" }],
  ["sheet.access.cycle", { rest: "access: {back: {min: 1/1, after: top}, top: {min: 1/1, after: back}}" }],
  ["sheet.owner.unknown", { parts: "  lost: {kind: lamp, of: board, a: lit, b: N, share: 1}" }],
];

/** What assembling refuses, in the same form. */
const refused: typeof rules = [
  ["sheet.kind.unknown", { parts: "  odd: {kind: lampp, a: lit, b: N}" }],
  ["sheet.part.tab", { parts: "  odd: {kind: lamp, a: lit, b: N, tabs: {c: big tab}}" }],
  ["sheet.part.mode", { parts: "  odd: {kind: lamp, a: lit, b: N, modes: {gone: 10}}" }],
  ["sheet.part.mode", { parts: "  odd: {kind: lamp, a: lit, b: N, by-hand: {gone: loose}}" }],
  ["sheet.plug.pin", { rest: "plugs: {X1: {of: lamp, pins: {1: lit from a b}}}" }],
  ["sheet.plug.ways", { rest: "plugs: {X1: {of: lamp, ways: 1, pins: {1: lit, 2: N}}}" }],
  ["sheet.joint.unknown", { rest: "plugs: {X1: {of: lamp, joint: glue, pins: {1: lit}}}" }],
  ["sheet.same-wire", { rest: "same-wire: [[lit]]" }],
  ["sheet.input.unknown", { rest: "conditions: {c: {set: {hnad: 0}}}" }],
  ["sheet.step.unknown", { rest: "conditions: {c: {after: hot}}" }],
  ["sheet.name.twice", { rest: "world: {hand: {is: 1, takes: seconds}}" }],
  ["sheet.sign.in", { rest: "signs: {s: {ask: Q, true-when: hand > 0}}" }],
  ["sheet.sign.rule", { rest: "signs: {s: {ask: Q}}" }],
  ["sheet.sign.levels", { rest: "signs: {s: {ask: Q, in: plugged-in, levels: {a: hand > 0, b: hand > 1}}}" }],
  ["sheet.sign.table", { rest: "signs: {s: {ask: Q, table: {lamp: .5}}}" }],
  ["sheet.sign.answers", { rest: "signs: {s: {ask: Q, when-first: hand > 0, answers: always | plugged-in}}" }],
  ["sheet.measure.unit", { rest: "causes: {c: {says: x, share: 1, measure: {rise: {good: 1..2, bad: 3..4}}}}" }],
  ["sheet.cause.sets", { rest: "causes: {c: {says: x, share: 1, sets: {hand: [0, 1], kettle: [0]}}}" }],
  ["sheet.why-open", { rest: "why-open: {lamp: {itself: 0}}" }],
  ["sheet.access.minutes", { rest: "access: {a: {min: soon}}" }],
];

test.each([...rules, ...refused])("%s is found, with file and line", (code, more) => {
  const found = check(lampSheet(more)).filter((issue) => issue.code === code);
  expect(found.length).toBeGreaterThan(0);
  for (const issue of found) {
    expect(issue).toMatchObject({ file: "sheet.yaml" });
    expect(issue.line).toBeGreaterThan(0);
    expect(issue.expected).not.toBe("");
  }
});

const dryerWith = (from: string, to: string): string => {
  expect(smallDryerText).toContain(from);
  return smallDryerText.replace(from, to);
};

test("a guard whose parts exclude one another can never hold", () => {
  const text = dryerWith("ntc-in.plausible and ntc.temp < 75", "ntc.temp > 80 and ntc.temp < 75");
  expect(check(text)).toMatchObject([{ code: "sheet.guard.never", severity: "warning" }]);
});

test("a word the machine says wants its meaning in codes", () => {
  const text = dryerWith("door: door circuit open,", "");
  expect(codes(text)).toEqual(["sheet.code.unknown"]);
});

test("a sign that names what is missing in some combination is refused, once, unless it says only-if", () => {
  const sign = (more: string) => `  gurgles: {ask: "Does it gurgle?", in: heat, true-when: pump.works > 0${more}}\n`;
  const text = (more: string) => dryerWith("\ncauses:", `\n${sign(more)}\ncauses:`);
  expect(check(text(""))).toMatchObject([{ code: "formula.unknown-name", severity: "error" }]);
  expect(check(text(", only-if: condensate is pump to a tank"))).toEqual([]);
});

test("a link whose part only some combinations have is a match; a rule of rows likewise", () => {
  expect(codes(dryerWith("heat-relay-1/contact1 burnt", "heat-relay-2/contact1 burnt"))).toEqual([]);
  expect(codes(dryerWith("at: [heater, cut-out, one-shot, X3]", "at: [heater, X8]"))).toEqual([]);
});

test("a step that drives what is not there is refused", () => {
  expect(codes(dryerWith("heat-out-1: heat }", "heat-out-9: heat }"))).toContain("sheet.step.output");
});

test("a drive under a guard that nobody wrote is refused", () => {
  expect(codes(dryerWith("heat-out-1: heat }", "heat-out-1: warm }"))).toContain("sheet.step.guard");
});

test("every issue comes once, in the order of the file", () => {
  const issues = check(lampSheet({ head: "" }));
  expect(new Set(issues.map((issue) => JSON.stringify(issue))).size).toBe(issues.length);
  const lines = issues.map(({ line }) => line ?? 0);
  expect(lines).toEqual([...lines].sort((a, b) => a - b));
});

test("a time-out may only stop, drain, go on, lock out, or say a word", () => {
  expect(codes(dryerWith("then: [say cold, go on]", "then: [wait]"))).toContain("sheet.time-out.then");
});

test("a time-out that drains needs a step named drain", () => {
  expect(codes(dryerWith("then: [say cold, go on]", "then: [say cold, drain]"))).toContain("sheet.time-out.drain");
});

test("a formula that needs itself is refused", () => {
  expect(codes(lampSheet({ rest: "quantities: {a: b + 1, b: a + 1}" }))).toContain("formula.unknown-name");
});
