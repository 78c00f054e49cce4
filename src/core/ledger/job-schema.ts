import { choice, closed, listOf, mapOf, numberFrom, type Schema, says, TEXT, WORDS, YES_NO } from "../part/index.ts";
import { CLOSING_EVENTS } from "./closing-schema.ts";
import { MONEY_EVENTS } from "./money-schema.ts";
import {
  CANNOT_KEYS,
  DID_KEYS,
  ENERGISED_KEYS,
  type EVENT_KINDS,
  FOUND,
  type FRAME_KEYS,
  ISOLATED_KEYS,
  LOOKED_KEYS,
} from "./read-event.ts";
import { CUSTOMER_KEYS, JOB_FORMAT, JOB_KEYS, MACHINE_KEYS } from "./read-job.ts";
import { COUNTED_KEYS, POINT_KEYS, READING_STATES, SET_KEYS, VALUE_KEYS } from "./read-measured.ts";
import { VISIT_EVENTS } from "./read-visit.ts";

const TEXTS = mapOf(TEXT);
const SHOWN = says("what the meter showed: 26.4, OL, or a word", TEXT);
const SIGNS = says("sign: answer", TEXTS);

const SET: Readonly<Record<(typeof SET_KEYS)[number], Schema>> = {
  state: says("live when a step, condition or output is named, else plug out", choice(READING_STATES)),
  in: says("the step of the programme", TEXT),
  condition: says("a condition beside the programme", TEXT),
  command: says("the output commanded in service test", TEXT),
  meter: says("the instrument's profile", TEXT),
  leads: says("nulled, not nulled, or their ohms", TEXT),
  hands: says("input: value, as {door: 1}", mapOf(numberFrom())),
  pulled: says("connectors that are off", WORDS),
  freed: says("parts with their wires off", WORDS),
  hot: says("degrees Celsius of the part", numberFrom(-30, 400)),
};

const MEASURED_KEYS = [...POINT_KEYS, ...VALUE_KEYS.keys(), ...SET_KEYS];
const MEASURED = closed<string>(MEASURED_KEYS, {
  ...Object.fromEntries([...VALUE_KEYS.keys()].map((key) => [key, { anyOf: [SHOWN, WORDS, TEXTS] }])),
  ...SET,
  ...({
    from: says("the first point", TEXT),
    to: says("the second point", TEXT),
    joined: says("points joined to the first", WORDS),
    at: says("a connector, readings by pair of pins", TEXT),
    pairs: says("pairs of pins, in the order of what is shown", WORDS),
    cause: says("a cause that has a measurement of its own", TEXT),
    what: says("which of its measurements", TEXT),
    shows: says("ohms with the plug out; or the cause's own unit", { anyOf: [SHOWN, WORDS, TEXTS] }),
  } satisfies Readonly<Record<(typeof POINT_KEYS)[number], Schema>>),
});

const COUNTED = closed([...COUNTED_KEYS, ...SET_KEYS], {
  from: says("the first point", TEXT),
  to: says("the second point", TEXT),
  good: says("how often it was good", numberFrom(0)),
  of: says("how often it was tried", numberFrom(1)),
  ...SET,
});

const EVENTS: Readonly<Record<(typeof EVENT_KINDS)[number], Schema>> = {
  told: says("by the customer", SIGNS),
  heard: says("on the telephone", SIGNS),
  seen: says("by the technician", SIGNS),
  answered: says("slot: variant", TEXTS),
  looked: closed(LOOKED_KEYS, {
    at: says("the part or cause looked at", TEXT),
    found: choice(FOUND),
    mode: says("the way of failing that was seen", TEXT),
  }),
  opened: says("covers", WORDS),
  closed: says("covers", WORDS),
  unplugged: { anyOf: [TEXT, { type: "null" }] },
  isolated: { anyOf: [TEXT, { type: "null" }, closed(ISOLATED_KEYS, { tester: TEXT })] },
  energised: { anyOf: [TEXT, { type: "null" }, closed(ENERGISED_KEYS, { through: TEXT })] },
  measured: MEASURED,
  counted: COUNTED,
  cannot: { anyOf: [TEXT, closed(CANNOT_KEYS, { step: says("a step's id", TEXT), why: TEXT })] },
  did: closed(DID_KEYS, {
    remedy: says("what was done", TEXT),
    on: says("the part or cause it was done to", TEXT),
    worked: YES_NO,
    price: says("what it cost", numberFrom(0, 1e6)),
  }),
  why: says("protector: reason", TEXTS),
  withdraws: {
    anyOf: [says("the number of an event: 3 or e3", TEXT), { type: "object", properties: { event: TEXT } }],
  },
  note: TEXT,
  ...MONEY_EVENTS,
  ...CLOSING_EVENTS,
  ...VISIT_EVENTS,
};

/** An event of a kind that is not known is kept and moves nothing, so its name is left open here too. */
const EVENT: Schema = {
  anyOf: [
    choice(["unplugged", "isolated", "energised"]),
    {
      type: "object",
      properties: {
        ...EVENTS,
        ...({
          at: says("minutes since the job began, or 14:20", TEXT),
          by: says("who", TEXT),
        } satisfies Readonly<Record<(typeof FRAME_KEYS)[number], Schema>>),
      },
      maxProperties: 4,
    },
  ],
};

/** The JSON Schema of a job file, from the key lists of its reader. */
export function jobSchema(): Schema {
  return closed(
    JOB_KEYS,
    {
      format: says("the form and its version", { const: JOB_FORMAT }),
      job: says("a number or name for this job", TEXT),
      sheet: says("the family sheet's name", TEXT),
      branch: says("kinds in order from line to neutral, instead of a sheet", WORDS),
      machine: closed(MACHINE_KEYS, {
        age: says("years, as 7 years", TEXT),
        new: says("price of a comparable new machine", numberFrom(0, 1e6)),
        "last unit": says("day on which the model's last unit was placed on the market: 2023-05-31", TEXT),
        answers: says("slot: variant", TEXTS),
        differs: says("cut-out absent; heater.P is 1000 W; ...", listOf(TEXT)),
        plate: says("part.rating: value", TEXTS),
      }),
      shop: says("a cost file's name", TEXT),
      customer: closed(CUSTOMER_KEYS, {
        authority: says("what may be spent without asking", numberFrom(0, 1e6)),
        name: TEXT,
        place: says("address on one line", TEXT),
      }),
      date: says("day of the job: 2026-03-04", TEXT),
      complaint: says("in the customer's words", TEXT),
      "return-of": says("the job it comes back from", TEXT),
      events: says("what happened, in order", { anyOf: [{ type: "null" }, { type: "array", items: EVENT }] }),
    },
    ["format", "job"],
  );
}
