import type { SafetyTest } from "../../core/safety/index.ts";

/** One safety test for who makes it: what to do, what can hurt in it, and what is done when it fails. */
export interface SafetyStep {
  readonly does: string;
  readonly care: string;
  /** Common practice, no source. */
  readonly failed: string;
}

const LIVE =
  "LIVE, on a lead with an RCD, covers on, hands off metal; local rules and licensed practice come first. Hot metal stays hot for a quarter of an hour; never leave it alone while it heats.";

/** By the order of the tests; the cautions come with the step. */
export const SAFETY_STEPS: Readonly<Record<SafetyTest, SafetyStep>> = {
  look: {
    does: "Look over cord, plug and its fuse, covers, screws, earth tags; every protector in its place and of the right rating, nothing bridged.",
    care: "Plug out, in sight or in your pocket.",
    failed: "Put right what was found, then look again.",
  },
  earth: {
    does: "From the earth pin of the plug to every metal part that can be touched, 200 mA first. Move the cord while you measure: the worst value counts.",
    care: "Plug out, the machine free of pipes, aerial and other appliances, or they carry the test. Never 10 A or more through a board or a thin functional earth.",
    failed:
      "Measure piece by piece: pin of the plug, cord, earth tag, case. Clean and tighten; a bad crimp is made anew. The limit goes by the cord's length and section: are they noted right?",
  },
  insulation: {
    does: "L and N joined, switches on, against earth (class II: against metal that can be touched). What lies behind an open relay is not reached from the plug: measure it at its own terminals.",
    care: "Plug out, nobody touches machine or tips: the test volts hurt, and kill electronics. Never L to N, never on a sensor, a display or data wires; a three-phase motor only with its module off. Discharge after it: under 25 V before anything is touched.",
    failed:
      "Find the part: pull connectors one by one, then test each part at its own terminals, the heater first. A sealed heater that stood damp may recover: dry it, test again, then judge.",
  },
  "protective current": {
    does: "Heater on and hot. Where the plug can be turned, both ways round: the larger value counts.",
    care: LIVE,
    failed:
      "Switch off, plug out, prove dead. Look for damp, then heater and filter: insulation at their own terminals.",
  },
  "touch current": {
    does: "Every metal part that can be touched and is not joined to earth, hot. Where the plug can be turned, both ways round.",
    care: LIVE,
    failed:
      "Switch off, plug out, prove dead. Look for damp, then for the part that leaks: insulation at its own terminals.",
  },
  function: {
    does: "The programme as the customer uses it, until heat, motor and pump have each run; lock and door switch do what they must.",
    care: LIVE,
    failed: "Switch off, plug out, prove dead. It is not mended yet: go on with the search.",
  },
};
