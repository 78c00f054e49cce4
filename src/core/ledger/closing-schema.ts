import { choice, closed, listOf, numberFrom, type Schema, says, TEXT, WORDS, YES_NO } from "../part/index.ts";
import { HIDES, LOADS, STEP_SAYS } from "../powerlog/index.ts";
import { PROTECTION_CLASSES, SAFETY_TESTS } from "../safety/index.ts";
import { ASKED_OF_CUSTOMER, CLOSE_OUT_CHECKS, NOTICE_ENDS } from "./closing-event.ts";
import {
  type CLOSING_READERS,
  FOUND_WORDS,
  HEATED_KEYS,
  LEFT_KEYS,
  LOADED_KEYS,
  NOTICE_KEYS,
  OPERATED_KEYS,
  SAFETY_KEYS,
  TESTED_KEYS,
  UNPROVED_KEYS,
} from "./read-closing.ts";
import { LOGGED_KEYS, RUN_KEYS, STEP_KEYS } from "./read-logged.ts";

const INSTRUMENT = {
  instrument: says("with what it was measured", TEXT),
  calibrated: says("when that was last calibrated", TEXT),
};

/** Schemas of the events between a repair and the door. */
export const CLOSING_EVENTS: Readonly<Record<keyof typeof CLOSING_READERS, Schema>> = {
  operated: closed(OPERATED_KEYS, {
    on: says("the part that was operated", TEXT),
    good: says("how often it was good", numberFrom(0)),
    of: says("how often it was tried", numberFrom(1)),
    minutes: says("minutes that one takes", numberFrom(0)),
  }),
  heated: closed(HEATED_KEYS, {
    litres: says("water in the machine: 4 L ±10%", TEXT),
    from: says("degrees at the start: 15 ±1", TEXT),
    to: says("degrees at the end: 60 ±1", TEXT),
    time: says("from start to end: 9.5 min ±5 s", TEXT),
    watts: says("of the heater by its plate", TEXT),
    rated: says("volts at which the plate gives them, 230 V when silent", TEXT),
    volts: says("mains while it heated", TEXT),
    load: says("dry textiles or dishes, kg", TEXT),
    tub: says("metal that warms with the water, kg", TEXT),
  }),
  loaded: closed(LOADED_KEYS, {
    on: says("the contact or its part", TEXT),
    drop: says("across the closed contact under load: 120 mV ±2 mV", TEXT),
    ohms: says("of the closed contact without load", TEXT),
    amperes: says("of the load: 9 A ±0.2 A", TEXT),
  }),
  logged: closed(LOGGED_KEYS, {
    file: says("the log's name", TEXT),
    seconds: says("from the first row to the last", numberFrom(0)),
    "kilowatt hours": says("taken up in it", numberFrom(0)),
    volts: says("mains while something ran", numberFrom(0)),
    runs: says(
      "what ran longest, in order",
      listOf(
        closed(RUN_KEYS, {
          load: choice(LOADS),
          from: says("seconds from the first row", numberFrom(0)),
          to: says("seconds from the first row", numberFrom(0)),
          watts: says("at the plug", numberFrom(0)),
        }),
      ),
    ),
    steps: says(
      "against the sheet's programme",
      listOf(
        closed(STEP_KEYS, {
          step: says("of the programme", TEXT),
          says: choice(STEP_SAYS),
          watts: says("at which it was seen", numberFrom(0)),
        }),
      ),
    ),
    hides: says("why a step that is not seen may have run", listOf(choice(HIDES))),
  }),
  safety: closed(SAFETY_KEYS, {
    rules: says("a rule set by its file's name", TEXT),
    class: choice(PROTECTION_CLASSES),
    cord: says("length of the cord, metres", numberFrom(0)),
    section: says("of its conductors, mm²", numberFrom(0)),
    heating: says("watts of its heating elements", TEXT),
    portable: YES_NO,
    "bare metal": says("class I: metal that can be touched and is not joined to earth", YES_NO),
    "surge suppressors": says("built in: 250 V instead of 500 V", YES_NO),
    ...INSTRUMENT,
  }),
  tested: closed(TESTED_KEYS, {
    test: choice(SAFETY_TESTS),
    found: says("of look and function", choice(FOUND_WORDS)),
    shows: says("what the meter showed: 0.12 ±0.01, > 20 MΩ", TEXT),
    cannot: says("why it cannot be made", TEXT),
    meter: says("an instrument's profile, for the ± where none is written", TEXT),
    ...INSTRUMENT,
  }),
  ticked: says("things back in their place, or all", WORDS),
  checked: closed(CLOSE_OUT_CHECKS, {
    "protectors in place": YES_NO,
    "right rating and kind": YES_NO,
    "nothing bridged": YES_NO,
    "earth re-made": YES_NO,
  }),
  unproved: closed(UNPROVED_KEYS, {
    what: says("what was not proved on site", TEXT),
    why: says("why not", TEXT),
    asked: says("what the customer was asked for", choice(ASKED_OF_CUSTOMER)),
    days: says("within so many days", numberFrom(1, 365)),
  }),
  left: closed(LEFT_KEYS, {
    "waiting for": says("a part, an answer", TEXT),
    "made safe": says("what was done so that nobody is hurt", listOf(TEXT)),
  }),
  notice: closed(NOTICE_KEYS, {
    found: says("what is dangerous", WORDS),
    done: says("what was done about it", WORDS),
    ended: choice(NOTICE_ENDS),
    to: says("to whom it was given", TEXT),
    signature: says("the signature's drawing, by its hash", TEXT),
  }),
};
