import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { sentence } from "../issue/index.ts";
import { instantiate } from "./instantiate.ts";
import type { Kind, KindInstance } from "./kind.ts";
import { readKind } from "./read-kind.ts";

const relay = `says: relay
source: M
asks: {poles: 1, U: 12 V, coil: 400R ±10%, drop: 15 %, pull: 70 % @C, contact: 10m..30m, rail: isolated | on mains, feels: formula 20}
per: {p: poles}
pins: {A1: plug-pin, A2: plug-pin, <p>1: hot-tab, <p>4: hot-tab, case: none}
elements:
  coil:       {R: coil, from: A1, to: A2}
  contact<p>: {switch: contact, from: <p>1, to: <p>4, closed-in: pulled}
  tie:        {R: 1m, from: A2, to: inner, if: rail is on mains}
states: [released, pulled]
moves:
  - {to: pulled,   when: coil.volts >= pull * U, takes: now}
  - {to: released, when: coil.volts < drop * U,  takes: now}
gives: {clicks: is pulled, lost: contact<p>.watts, temp: feels + 1}
knobs: {dirt: 0}
modes:
  contact<p> burnt:    {share: 60, does: {contact<p>: "+ 0R3 5R 50R"}, now-and-then: 30 %}
  all welded:          {share: 20, does: {contact*: closed}}
  sticks mechanically: {share: 10,  does: {stuck: released, set: {dirt: [.5, 1]}}, victim: yes}
  coil leaks:          {share: 10, does: {leak: [A1, A2], to: case, ohms: [1k, 10k]}}
looks: {contact<p> burnt: {shows: brown lid over the pole, seen: .9/.05}}
remedies: {solder and new: {for: [contact*], min: 15..25, odds: .88/.08, part: .02}, fit assembly: {for: all, of: on, min: 20, odds: .93/.05}, re-solder: {for: [contact*], remakes: joint, min: 15, odds: .85/.1, part: .01}}
bench: [{do: measure, what: ohms A1 to A2, good: coil}, {do: energise, what: coil at U, then: ohms <p>1 to <p>4, good: ≤ 0R1 @C, repeat: 20}]
duty: {one operation: 0.1 s, at most: 20 / min}
hazards: [a coil of 230 V on the bench is live work]
when-absent: removed
share: 2
`;

function kindOf(text: string): Kind {
  const checked = readKind(text, "data/kinds/relay.yaml");
  if (!checked.ok) throw new Error(checked.issues.map(sentence).join("\n"));
  expect(checked.warnings.map(sentence)).toEqual([]);
  return checked.value;
}

function ratings(given: Readonly<Record<string, string>>): Parameters<typeof instantiate>[1] {
  return new Map(
    Object.entries(given).map(([name, text], i) => [name, { text, line: 40 + i, source: { mark: "P" as const } }]),
  );
}

function instanceOf(given: Readonly<Record<string, string>>): KindInstance {
  const checked = instantiate(kindOf(relay), ratings(given), { file: "sheet.yaml", at: ["parts", "r"] });
  if (!checked.ok) throw new Error(checked.issues.map(sentence).join("\n"));
  return checked.value;
}

/** Issues of a kind that differs from the relay by one replacement, as `line code found; hint`. */
function faults(from: string, to: string): readonly string[] {
  expect(relay).toContain(from);
  const checked = readKind(relay.replace(from, to), "relay.yaml");
  const issues = checked.ok ? checked.warnings : checked.issues;
  return issues.map((issue) => `${issue.line} ${issue.code} ${issue.found}; ${issue.hint ?? issue.expected}`);
}

describe("instantiate", () => {
  it("writes 2 poles out into 4 contact pins, 2 contacts, 5 modes and 3 bench steps", () => {
    const instance = instanceOf({ poles: "2" });
    expect([...instance.pins.keys()]).toEqual(["A1", "A2", "11", "21", "14", "24", "case"]);
    expect(instance.elements.map((element) => element.name)).toEqual(["coil", "contact1", "contact2"]);
    expect(instance.modes.map((mode) => mode.name)).toEqual([
      "contact1 burnt",
      "contact2 burnt",
      "all welded",
      "sticks mechanically",
      "coil leaks",
    ]);
    expect(instance.bench.map((step) => step.then)).toEqual([undefined, "ohms 11 to 14", "ohms 21 to 24"]);
  });

  it("splits the share of 60 of a mode named by pole evenly: 30 and 30 of 100", () => {
    expect(instanceOf({ poles: "2" }).modes.map((mode) => mode.share)).toEqual([30, 30, 20, 10, 10]);
  });

  it("leaves modes of 0 poles out and lets the rest share 100", () => {
    const { modes } = instanceOf({ poles: "0" });
    expect(modes.map((mode) => [mode.name, mode.share])).toEqual([
      ["sticks mechanically", 50],
      ["coil leaks", 50],
    ]);
  });

  it("sums a word it gives over the poles", () => {
    expect(instanceOf({ poles: "2" }).gives.get("lost")?.text).toBe("((contact1.watts) + (contact2.watts))");
    expect(instanceOf({ poles: "0" }).gives.get("lost")?.text).toBe("(0)");
  });

  it("gives each does its own form", () => {
    const { modes } = instanceOf({});
    expect(modes.map((mode) => mode.does)).toEqual([
      [{ does: "series", targets: ["contact1"], ohms: [0.3, 5, 50] }],
      [{ does: "closed", targets: ["contact1"] }],
      [
        { does: "stuck", state: "released" },
        { does: "set", knob: "dirt", to: [0.5, 1] },
      ],
      [{ does: "leak-between", from: ["A1", "A2"], to: "case", ohms: [1000, 10_000] }],
    ]);
    expect(modes[0]).toMatchObject({
      nowAndThen: 0.3,
      looks: "brown lid over the pole",
      seen: { hit: 0.9, falseAlarm: 0.05 },
    });
    expect(modes[2]?.victim).toBe(true);
  });

  it("closes the contact at 10..30 mΩ when pulled and leaves it open else", () => {
    const contact = instanceOf({}).elements[1];
    expect(contact?.value).toMatchObject({ byState: new Map([["pulled", { text: "contact" }]]) });
  });

  it("takes ratings from the sheet in place of defaults: 230R, 2 tie points on the mains, a formula", () => {
    const instance = instanceOf({ coil: "230R ±5%", rail: "on mains", feels: "exhaust - 2" });
    expect(instance.ratings.get("coil")).toMatchObject({ nominal: 230, source: { mark: "P" } });
    expect(instance.elements.map((element) => element.name)).toContain("tie");
    expect(instance.conditions.get("feels")?.text).toBe("exhaust - 2");
    expect(instance.words.get("rail")).toBe("on mains");
  });

  it("gives the same object for the same ratings", () => {
    const kind = kindOf(relay);
    const one = instantiate(kind, ratings({ poles: "2" }), { at: [] });
    const two = instantiate(kind, ratings({ poles: "2" }), { at: ["other"] });
    expect(one.ok && two.ok && one.value === two.value).toBe(true);
  });

  it("gives each part its own formula, with the line and path it stands at", () => {
    const kind = kindOf(relay);
    const ats = ["r", "s"].map((part) => {
      const checked = instantiate(kind, ratings({ feels: "exhaust" }), { at: ["parts", part] });
      return checked.ok && checked.value.conditions.get("feels")?.place.at.join(".");
    });
    expect(ats).toEqual(["parts.r.feels", "parts.s.feels"]);
  });

  it("reads remedies, duty and hazards", () => {
    const instance = instanceOf({});
    expect(instance.remedies[0]).toMatchObject({ cures: ["contact*"], assembly: false, cured: 0.88, back: 0.08 });
    expect(instance.remedies[0]?.minutes).toMatchObject({ lo: 15, hi: 25 });
    expect(instance.remedies[1]).toMatchObject({ cures: ["all"], assembly: true });
    expect(instance.remedies.map(({ remakes }) => remakes)).toEqual([undefined, undefined, true]);
    expect(instance.duty).toEqual({ oneOperationSeconds: 0.1, atMostPerMinute: 20 });
    expect(instance.hazards).toEqual(["a coil of 230 V on the bench is live work"]);
  });

  it.each([
    [{ cioil: "3R" }, "40 part.rating.unknown Did you mean coil?"],
    [{ coil: "12 V" }, "40 quantity."],
    [{ coil: "-4R" }, "40 quantity."],
    [{ poles: "1.5" }, "part.rating.count"],
    [{ poles: "1000" }, "part.rating.count"],
    [{ rail: "isolatd" }, "40 part.rating.word Did you mean isolated?"],
    [{ feels: "1 +" }, "40 formula.syntax"],
  ])("refuses %o with %s, in the sheet", (given, expected) => {
    const checked = instantiate(kindOf(relay), ratings(given), { file: "sheet.yaml", at: ["parts", "r"] });
    if (checked.ok) throw new Error("was taken");
    expect(checked.issues).toHaveLength(1);
    const [issue] = checked.issues;
    expect(issue?.file).toBe("sheet.yaml");
    expect(`${issue?.line ?? ""} ${issue?.code} ${issue?.hint ?? ""}`.trim()).toContain(expected.split(" Did")[0]);
    if (expected.includes("Did")) expect(issue?.hint).toBe(expected.slice(expected.indexOf("Did")));
  });
});

describe("readKind", () => {
  it.each([
    ["hazards:", "hazzards:", "25 read.unknown-key key hazzards; Did you mean hazards?"],
    ["per: {p: poles}", "per: {p: pols}", '4 part.kind.per "pols"; Did you mean poles?'],
    ["per: {p: poles}\n", "", '4 part.template.no-count <p>; a letter that "per" counts'],
    ["{R: coil,", "{R: coyl,", '7 formula.unknown-name "coyl" in column 1 of "coyl"; Did you mean coil?'],
    ["closed-in: pulled", "closed-in: puled", '8 part.kind.state "puled"; Did you mean pulled?'],
    [
      "when: coil.volts <",
      "when: col.volts <",
      '13 part.kind.unknown-name "col.volts" in "col.volts < drop * U"; Did you mean coil.volts?',
    ],
    ["{contact*: closed}", "{kontact1: closed}", '18 part.kind.does "kontact1"; Did you mean contact1?'],
    ["stuck: released", "stuck: stuck", '19 part.kind.state "stuck"; There are: released · pulled.'],
    ["to: case, ohms", "to: cse, ohms", '20 part.kind.leak "cse"; Did you mean case?'],
    ["odds: .88/.08", "odds: 1.88/.08", '22 read.chance "1.88/.08"; two chances from 0 to 1, as .95/.05'],
    ["{share: 20,", "{share: 50,", "16 part.kind.shares shares that make 130; shares that make 100 (± 1)"],
    ["temp: feels + 1}", "dirt: feels + 1}", "14 part.kind.knob-and-gives dirt; a name that is no knob"],
    ["{poles: 1,", "{A1: 1, poles: 1,", "5 part.kind.pin-and-rating A1; a pin whose name is no rating"],
    ["{R: coil,", "{R: coil, C: 2µ,", "7 part.kind.element R and C; one of R"],
    ["source: M\n", "", "part.kind.no-source"],
    ["{solder and new: {for: [contact*]", "{solder and new: {for: [kontact*]", '22 part.kind.pattern "kontact*"'],
    ["{contact*: closed}", "{kontact*: closed}", '18 part.kind.pattern "kontact*"'],
    ["takes: now}\n  -", "takes: soon}\n  -", '12 read.choice "soon"; now | seconds | minutes'],
  ])("%s → %s: %s", (from, to, expected) => {
    expect(faults(from, to).join("\n")).toContain(expected);
  });

  it("lists 3 faults of one file together", () => {
    const text = relay
      .replace("U: 12 V", "U: 12 Q")
      .replace("closed-in: pulled", "closed-in: x")
      .replace("says: relay\n", "");
    const checked = readKind(text, "relay.yaml");
    expect(checked.ok).toBe(false);
    expect(checked.ok || checked.issues.length).toBeGreaterThanOrEqual(2);
  });

  it("refuses 24 times 24 times 24 times 24 copies in under a second", () => {
    const letters = ["a", "b", "c", "d"];
    const all = letters.map((letter) => `<${letter}>`).join("");
    const text = [
      "says: x\nsource: I",
      `asks: {${letters.map((letter) => `n${letter}: 24`).join(", ")}}`,
      `per: {${letters.map((letter) => `${letter}: n${letter}`).join(", ")}}`,
      `pins: {p${all}: none}`,
      `hazards: [x${all}]`,
      `gives: {y: p${all}}`,
    ].join("\n");
    const before = performance.now();
    const kind = readKind(text, "x.yaml");
    expect(kind.ok || kind.issues.map((issue) => issue.code)).toContain("part.template.too-many");
    expect(performance.now() - before).toBeLessThan(1000);
  });

  it("never throws on 500 mutations of a kind", () => {
    const edit = fc.tuple(
      fc.nat(relay.length),
      fc.nat(4),
      fc.constantFrom("", "<p>", "<q>", ":", "{", "[", " ", "\n", "1e999", "-", "*", "OL"),
    );
    fc.assert(
      fc.property(fc.array(edit, { minLength: 1, maxLength: 5 }), (edits) => {
        const text = edits.reduce((all, [at, gone, put]) => all.slice(0, at) + put + all.slice(at + gone), relay);
        const kind = readKind(text, "relay.yaml");
        if (kind.ok) instantiate(kind.value, ratings({ poles: "3" }), { at: [] });
        return kind.ok || kind.issues.length > 0;
      }),
      { seed: 5, numRuns: 500 },
    );
  });
});
