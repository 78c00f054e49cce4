import { ELEMENT_KEYS } from "./read-elements.ts";
import { HASTES, MOVE_KEYS } from "./read-formulas.ts";
import {
  BENCH_ACTS,
  BENCH_FOLLOWS,
  BENCH_KEYS,
  BENCH_QUANTITIES,
  DUTY_KEYS,
  KIND_REMEDY_KEYS,
  PIN_KEYS,
  WHEN_ABSENT,
} from "./read-instance.ts";
import { KIND_KEYS } from "./read-kind.ts";
import { KIND_LOOK_KEYS, MODE_KEYS } from "./read-modes.ts";
import { STATE_SET_KEYS } from "./read-states.ts";
import {
  AMOUNT,
  CHANCE,
  choice,
  closed,
  FORMULA,
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
} from "./schema.ts";

/** A value of an element: one formula, one for each state, or nothing. */
const VALUE: Schema = { anyOf: [TEXT_OR_NOTHING, mapOf(TEXT)] };
const IF = { if: says("over ratings; false: it is gone", FORMULA) };

/** The JSON Schema of a part kind's file, from the key lists of its reader. */
export function kindSchema(): Schema {
  return closed(
    [...KIND_KEYS, "if"] as const,
    {
      ...IF,
      says: says("what a technician calls it", TEXT),
      note: NOTE,
      asks: says("rating: its default, `needed`, or `formula`", mapOf(TEXT_OR_NOTHING)),
      words: says("rating: the words it may be, the first by default", mapOf(WORDS)),
      per: says("letter: the rating that counts it; <letter> repeats what mentions it", mapOf(TEXT)),
      pins: says(
        "pin: class of the joint it is reached through, or none",
        mapOf({ anyOf: [TEXT, optional(PIN_KEYS, { joint: TEXT })] }),
      ),
      elements: says("primitive elements between pins and inner points", mapOf(ELEMENT)),
      states: says("[at rest, ...], or several sets by name", {
        anyOf: [WORDS, mapOf({ anyOf: [WORDS, optional(STATE_SET_KEYS, { states: WORDS, keeps: YES_NO })] })],
      }),
      keeps: says("survives pulling the plug: yes, or names of sets", WORDS),
      moves: says("from state to state", listOf(MOVE)),
      knobs: says("number that mechanical modes set: its value in a good part", mapOf(numberFrom())),
      gives: says("word for signs, guards and world: its formula", mapOf(FORMULA)),
      sees: says("inputs and world values that the formulas look at", WORDS),
      modes: says("the ways it fails; shares make 100", mapOf(MODE)),
      looks: says(
        "mode or pattern*: what it looks like when bad",
        mapOf({ anyOf: [TEXT, optional(KIND_LOOK_KEYS, { shows: TEXT, seen: PAIR })] }),
      ),
      remedies: says("what can be done", mapOf(REMEDY)),
      bench: says("its own test, out of the machine", listOf(BENCH)),
      duty: optional(DUTY_KEYS, {
        "one operation": says("seconds", AMOUNT),
        "at most": says("so many a minute or an hour: 20 / min", TEXT),
      }),
      hazards: says("what can hurt at this part", WORDS),
      "bench-hazards": says("what can hurt at it on the bench only", WORDS),
      "when-absent": says("what its place is in a machine without it", choice(WHEN_ABSENT)),
      share: says("failures per 100 attended calls", numberFrom(0, 100)),
    },
    ["says", "pins"],
  );
}

/** Any map of a kind may say `if:`. */
function optional<Key extends string>(keys: readonly Key[], schemas: Readonly<Record<Key, Schema>>): Schema {
  return closed<Key | "if">([...keys, "if"], { ...schemas, ...IF });
}

const ELEMENT = optional(ELEMENT_KEYS, {
  R: says("ohms", VALUE),
  C: says("farads", VALUE),
  L: says("henries", VALUE),
  X: says("ohms of reactance at the mains' frequency; none for DC", VALUE),
  switch: says("ohms of the closed contact", VALUE),
  "V~": says("volts AC", VALUE),
  "V=": says("volts DC, from: is plus", VALUE),
  leak: says("a path that only faults make", VALUE),
  from: says("a pin or an inner point", TEXT),
  to: says("a pin or an inner point", TEXT),
  "closed-in": says("states in which the switch is closed", WORDS),
  turned: says("phase of V~, degrees", numberFrom(-360, 360)),
});

const MOVE = optional(MOVE_KEYS, {
  to: says("a state", TEXT),
  when: FORMULA,
  takes: choice(HASTES),
  from: says("states it leaves; without it, any of the set", WORDS),
  permanent: says("never made by the run, only noted", YES_NO),
  set: says("the set of states", TEXT),
});

const MODE = optional(MODE_KEYS, {
  share: says("per cent of this part's failures", numberFrom(0, 100)),
  does: says('open, closed, or {element: open | closed | "+ 0R3 5R" | "x 0.5" | "beside 1k" | "leak 1k"}', {
    type: ["string", "object"],
  }),
  "now-and-then": says("share of such faults that come and go", CHANCE),
  victim: says("usually the result of something else", YES_NO),
  looks: says("what it looks like when bad", TEXT),
  seen: says("chance that the look is seen when bad / when good", PAIR),
});

const REMEDY = optional(KIND_REMEDY_KEYS, {
  for: says("modes it cures, with *, or all", WORDS),
  of: says("on: fits the assembly that the part belongs to", choice(["on"])),
  remakes: says("joint: remakes a connection, and fits no part", choice(["joint"])),
  min: says("minutes of work", AMOUNT),
  odds: says("cured / back within 12 months", PAIR),
  part: says("price as a share of a comparable new machine", AMOUNT),
  steps: WORDS,
});

const BENCH = optional(BENCH_KEYS, {
  do: choice(BENCH_ACTS),
  what: TEXT,
  // biome-ignore lint/suspicious/noThenProperty: the word of the form; a schema is never awaited
  then: says("what is measured then", TEXT),
  reads: says("what the meter reads; silent where a person judges", choice(BENCH_QUANTITIES)),
  follows: says("the limits stand for 20 °C and move as the ohms of copper do", choice(BENCH_FOLLOWS)),
  good: says("limits, a formula over the ratings and celsius, or what a person sees; @C etc. where it stands", TEXT),
  repeat: says("how often", numberFrom(1, 10_000)),
});
