import { expect, test } from "vitest";
import { askDeck } from "./ask-deck.ts";

const deck = "deck\nr1 a b 10\nr2 b 0 20\nv1 a 0 AC 5\n";

function issues(ask: unknown): string[] {
  const answers = askDeck(deck, ask, { deck: "d.cir", ask: "a.json" });
  return answers.ok
    ? []
    : answers.issues.map(({ file, at, found, expected }) => `${file} ${at.join(".")}: ${found}; ${expected}`);
}

test("every wrong field of every question is told in one go, with its path", () => {
  const questions = [
    { id: "", volts: ["a", "zz"] },
    { id: "w", ohms: ["a"], set: { r1: -1, r9: 3, v1: "5" }, remove: ["r7", 4], dc: "yes" },
    { id: "x", volts: ["a", "b"], amps: "r1" },
    {
      id: "y",
      ohms: ["a", "b"],
      faults: [
        { series: "r1" },
        { open: "r1", ohms: 5 },
        { leak: "a", to: "q", ohms: 1e40 },
        { scale: "r1", by: -1 },
        {},
        7,
      ],
    },
    { id: "z", amps: "r1", partials: true, remove: ["r1"], colour: "red" },
    5,
  ];
  expect(issues({ hertz: 50, questions, extra: 1 })).toEqual([
    'a.json extra: "extra"; one of hertz, questions',
    'a.json questions.0.id: ""; a text',
    'a.json questions.0.volts.1: "zz"; the name of a node of the deck',
    'a.json questions.1.ohms: ["a"]; two nodes',
    "a.json questions.1.set.r1: -1; ohms: 0, or 1e-12 to 1e+21",
    'a.json questions.1.set.r9: "r9"; the name of an element of the deck',
    'a.json questions.1.set.v1: "5"; a number',
    'a.json questions.1.remove.0: "r7"; the name of an element of the deck',
    "a.json questions.1.remove.1: 4; the name of an element of the deck",
    'a.json questions.1.dc: "yes"; true or false',
    'a.json questions.2: ["volts","amps"]; exactly one of volts, ohms, amps, watts',
    "a.json questions.3.faults.0.ohms: nothing; ohms: 0, or 1e-12 to 1e+21",
    'a.json questions.3.faults.1.ohms: "ohms"; only open in this fault',
    'a.json questions.3.faults.2.to: "q"; the name of a node of the deck',
    "a.json questions.3.faults.2.ohms: 1e+40; ohms: 0, or 1e-12 to 1e+21",
    "a.json questions.3.faults.3.by: -1; a factor, 0 or 1e-12 to 1e12",
    "a.json questions.3.faults.4: {}; a fault: series, parallel, scale, leak, open or short",
    "a.json questions.3.faults.5: 7; an object {...}",
    'a.json questions.4.colour: "colour"; one of id, set, remove, faults, volts, ohms, amps, watts, dc, partials',
    "a.json questions.4.partials: true; false: partials are given for volts and ohms",
    'a.json questions.4.amps: "r1"; an element that this question does not remove',
    "a.json questions.5: 5; an object {...}",
  ]);
});

test("hertz is needed by AC questions alone, and must be a number above 0", () => {
  expect(issues({ questions: [{ id: "q", volts: ["a", "b"] }] })).toEqual([
    "a.json hertz: nothing; a number, since question q is AC",
  ]);
  expect(issues({ hertz: 0, questions: [{ id: "q", ohms: ["a", "b"] }] })).toEqual(["a.json hertz: 0; hertz above 0"]);
  expect(
    issues({
      questions: [
        { id: "q", ohms: ["a", "b"] },
        { id: "p", dc: true, volts: ["a", "b"] },
      ],
    }),
  ).toEqual([]);
});

test("what is no object at all, or has no list of questions, is refused in one line", () => {
  for (const ask of [null, 5, "text", []])
    expect(issues(ask)).toEqual([`a.json : ${JSON.stringify(ask)}; an object {...}`]);
  expect(issues({ hertz: 50 })).toEqual(["a.json questions: nothing; a list [...]"]);
});
