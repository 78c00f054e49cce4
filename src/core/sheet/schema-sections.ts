import {
  AMOUNT,
  CHANCE,
  choice,
  closed,
  FORMULA,
  FORMULAS,
  listOf,
  mapOf,
  NOTE,
  numberFrom,
  PAIR,
  type Schema,
  says,
  TEXT,
  TEXT_OR_NOTHING,
  WORDS,
  YES_NO,
} from "../part/index.ts";
import { CAUSE_GROUPS, CAUSE_KEYS, LOOK_KEYS, MEASURE_KEYS, REMEDY_KEYS } from "./causes.ts";
import { JOINT_ROW_KEYS, PLUG_KEYS } from "./draw.ts";
import { LINK_KEYS } from "./links.ts";
import { CONDITION_KEYS, STEP_KEYS, TIME_OUT_KEYS, WORLD_KEEPS, WORLD_KEYS, WORLD_TAKES } from "./programme.ts";
import { ACCESS_KEYS, ASSEMBLY_KEYS, CODING, MAY_RUN } from "./reach.ts";
import type { SECTIONS } from "./sections.ts";
import { MOMENTS, SIGN_KEYS } from "./signs.ts";

export const SLOT_CONDITION: Schema = says("<slot> is <variant>, is not, and, or", { type: "string" });
/** What an entry of most sections may say. */
const SELDOM = { if: SLOT_CONDITION, "only-if": SLOT_CONDITION, note: NOTE };
const ACCESS_GROUP = says("the cover it sits behind", TEXT);
const CAUTIONS = says("what can hurt at this step", WORDS);

const PLUG = closed(PLUG_KEYS, {
  of: says("the part or assembly whose plug it is", TEXT),
  ways: says("number of pins, used or not", numberFrom(1, 200)),
  "pin 1": says("how its first pin is told", TEXT),
  access: ACCESS_GROUP,
  clip: says("a clip can be put on before power returns", YES_NO),
  live: says("never: not to be probed with power", choice(["never"])),
  joint: says("class of the joint at each pin, plug-pin by default", TEXT),
  says: says("words for its outer side", TEXT),
  inside: says("words for its inner side", TEXT),
  "pin-says": says("pin: what is printed there", mapOf(TEXT)),
  pins: says("pin: wire and colour, and `from` the wire inside", mapOf(TEXT)),
  ...SELDOM,
});

const ASSEMBLY = closed(ASSEMBLY_KEYS, {
  says: says("what a technician calls it", TEXT),
  access: ACCESS_GROUP,
  min: says("minutes to fit it", AMOUNT),
  part: says("price as a share of a comparable new machine", AMOUNT),
  odds: says("cured / back within 12 months", PAIR),
  coding: says("whether a new one must be told what machine it is in", choice(CODING)),
  ...SELDOM,
});

const JOINT_ROW = closed(JOINT_ROW_KEYS, {
  share: says("one share over all these joints", numberFrom(0, 100)),
  at: says("parts, plugs or pins", WORDS),
  ...SELDOM,
});

const WORLD = closed(WORLD_KEYS, {
  is: says("its value with power on", FORMULA),
  takes: choice(WORLD_TAKES),
  start: says("its value before", FORMULA),
  keeps: says("remembers its lowest or highest", choice(WORLD_KEEPS)),
  ...SELDOM,
});

const TIME_OUT = closed(TIME_OUT_KEYS, {
  if: FORMULA,
  after: says("a time: 20 s, 10 min", AMOUNT),
  // biome-ignore lint/suspicious/noThenProperty: the word of the form; a schema is never awaited
  then: says("stop, drain, go on, lock out until cleared, say <word>", WORDS),
});

const STEP: Schema = {
  anyOf: [
    { type: "null" },
    closed(STEP_KEYS, {
      drives: says("output: the guard that lets it, or nothing", mapOf(TEXT_OR_NOTHING)),
      guards: says("name: what must hold for the outputs that name it", mapOf(FORMULAS)),
      needs: says("word said: what must hold throughout, else it stops", mapOf(FORMULAS)),
      "enters-if": says("word said: what must hold at the start", mapOf(FORMULAS)),
      "time-outs": says("name: what is given up after a time", mapOf(TIME_OUT)),
      watts: says("band at the plug, to check the sheet", AMOUNT),
      "run-by": says("what must be alive for any output", FORMULAS),
      ...SELDOM,
    }),
  ],
};

const CONDITION = closed(CONDITION_KEYS, {
  after: says("the step it follows", TEXT),
  set: says("input: its value", mapOf(numberFrom())),
  ...SELDOM,
});

const SIGN = closed(SIGN_KEYS, {
  ask: says("the question in plain words", TEXT),
  in: says("the step or condition it is about", TEXT),
  at: says("the moment of that step", choice(MOMENTS)),
  "true-when": FORMULA,
  levels: says("answer: condition, the first that holds; the last: else", mapOf(FORMULA)),
  "when-first": says("the step in which this first holds is the answer", FORMULA),
  answers: says("never | step | step", WORDS),
  from: says("says: the word the machine says is the answer", choice(["says"])),
  table: says("cause or part/mode: chance of yes; else: of all others", mapOf(CHANCE)),
  told: says("hit / false alarm of the customer", PAIR),
  heard: says("hit / false alarm on the telephone", PAIR),
  seen: says("hit / false alarm of the technician", PAIR),
  min: says("minutes to see it", numberFrom(0)),
  unless: says("sign: answers after which this need not be asked, as no | weak", mapOf(TEXT)),
  ...SELDOM,
});

const MEASURES = mapOf(
  closed(MEASURE_KEYS, {
    says: TEXT,
    unit: says("the unit, else the last word of the name", TEXT),
    good: says("what is measured in a good machine", AMOUNT),
    bad: says("what is measured with this cause", AMOUNT),
    min: says("minutes", numberFrom(0)),
    access: ACCESS_GROUP,
    cautions: CAUTIONS,
    note: NOTE,
  }),
);
const REMEDIES = mapOf(
  closed(REMEDY_KEYS, {
    min: says("minutes of work", AMOUNT),
    odds: says("cured / back within 12 months", PAIR),
    part: says("price as a share of a comparable new machine", AMOUNT),
    steps: WORDS,
    note: NOTE,
  }),
);
const CAUSE = closed(CAUSE_KEYS, {
  says: says("what a technician calls it", TEXT),
  group: choice(CAUSE_GROUPS),
  share: says("per 100 attended calls", numberFrom(0, 100)),
  sets: says("input or world value: what it becomes", mapOf(listOf(numberFrom()))),
  measure: MEASURES,
  measures: MEASURES,
  look: {
    anyOf: [
      TEXT,
      closed(LOOK_KEYS, {
        says: says("what is seen when it is bad", TEXT),
        odds: says("seen when bad / seen when good", PAIR),
        min: says("minutes", numberFrom(0)),
        access: ACCESS_GROUP,
        cautions: CAUTIONS,
        note: NOTE,
      }),
    ],
  },
  remedy: REMEDIES,
  remedies: REMEDIES,
  ...SELDOM,
});

const LINK = closed(LINK_KEYS, {
  cause: says("cause, or part/mode*", TEXT),
  victim: says("part/mode*", TEXT),
  p: says("chance of the victim, given the cause", CHANCE),
  note: NOTE,
});

const ACCESS = closed(ACCESS_KEYS, {
  says: says("what a technician calls it", TEXT),
  min: says("minutes to open/close: 4/3", TEXT),
  position: says("how the machine stands for it", TEXT),
  needs: says("what must be there or done before", WORDS),
  "may-run": says("whether it may run so", choice(MAY_RUN)),
  tools: WORDS,
  "puts-back": says("what is put back: screws, hoses, earth tags, seals", WORDS),
  cautions: CAUTIONS,
  after: says("the cover that comes off before", TEXT),
  ...SELDOM,
});

/** What may stand in each section; `parts` depends on the library and is in `schema-part.ts`. */
export const SECTION_SCHEMAS: Readonly<Record<(typeof SECTIONS)[number], Schema>> = {
  inputs: says("hands and world in a good machine: name: value", mapOf(numberFrom())),
  plugs: says("connectors", mapOf(PLUG)),
  wires: says("wire: what it looks like where no plug says it", mapOf(TEXT_OR_NOTHING)),
  "same-wire": says("groups of wires that are one", { type: "array", items: { type: "array", items: TEXT } }),
  assemblies: says("what is changed as a whole", mapOf(ASSEMBLY)),
  parts: says("parts: kind, ratings, and the wire at each pin", {}),
  "joint-rows": says("one share over a group of joints", mapOf(JOINT_ROW)),
  guards: says("name: conditions that all steps add to their own", mapOf(FORMULAS)),
  "run-by": says("what must be alive for any output", FORMULAS),
  quantities: says("name: formula, for signs and guards", mapOf(FORMULA)),
  world: says("what the machine does with power: air, heat, water", mapOf(WORLD)),
  steps: says("the programme, in order", mapOf(STEP)),
  conditions: says("states in which it is looked at beside the programme", mapOf(CONDITION)),
  "service-test": says("outputs that can be commanded singly", mapOf(WORDS)),
  signs: says("what can be noticed without a meter", mapOf(SIGN)),
  causes: says("what is at fault and not electrical", mapOf(CAUSE)),
  links: says("cause and victim", listOf(LINK)),
  "why-open": says("protector: {cause or part/mode: chance}", mapOf(mapOf(CHANCE))),
  codes: says("word on the display: what it says of a circuit", mapOf(TEXT)),
  access: says("covers", mapOf(ACCESS)),
};
