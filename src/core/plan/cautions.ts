/** Code of a general caution; its words are in the table below, two lines at most. */
export type CautionCode = keyof typeof WORDS;

/** A caution that belongs to this very step: a general one by code, or the sheet's own words. */
export interface Caution {
  readonly code: CautionCode | "sheet";
  readonly lines: readonly string[];
}

/**
 * What can hurt someone, and what to do about it. Common practice, no source, save where a number is computed elsewhere.
 * Local rules and licensed practice come first.
 */
const WORDS = {
  isolate: [
    "Plug out, and in sight or in your pocket; fixed wiring locked off and labelled.",
    "A shared spur or a delayed start can bring power back: local rules come first.",
  ],
  "prove-dead": [
    "Prove dead with a two-pole tester: on a known live point, on all poles and earth, on the live point again.",
    "It holds until the next energising; after that it is done anew. A multimeter alone is no proof.",
  ],
  "case-first": [
    "Touch no metal before a two-pole tester between case and a known earth reads nothing.",
    "If the case tingles: nobody touches it, off at the fuse box first, only then unplug.",
  ],
  "filter-capacitor": [
    "The filter may hold a charge at the plug pins: wait for it, then bridge the pins with a resistor, not with fingers.",
  ],
  "run-capacitor": [
    "Discharge the capacitor with a 10 kΩ 5 W insulated clip resistor, then measure: under 10 V DC before you touch it.",
    "Never with a screwdriver. Take one wire off before reading it.",
  ],
  closed: [
    "Nothing opened, covers on. Stand clear; stop at smell, smoke, tripping or tingling.",
    "Not where it smelt burnt or water stands near the plug: then it stays unplugged.",
  ],
  "rcd-lead": ["Energise only through a 30 mA RCD lead whose test button was pressed today."],
  clipped: [
    "Live, clipped: leads on while proved dead, cover laid on, hands away, switch on, read, switch off, prove dead, leads off.",
    "Competent and authorised only, CAT III leads, at most 3 minutes; stop if anything differs. Local rules may forbid it.",
  ],
  handheld: [
    "Live by hand: only where dead and clipped cannot tell, reason written, never alone, one hand, dry mat, no rings.",
    "Competent and authorised by the shop, CAT III leads with 4 mm tips. Local rules may forbid it.",
  ],
  "no-bridging": ["No protector and no door switch is ever bridged, not even for a test."],
  insulation: [
    "L and N joined, against earth, never L against N. Appliance unplugged, nobody touching, board and sensors unplugged for a winding.",
    "250 V where there are surge arresters. Discharge after it: the tester shows under 25 V.",
  ],
  edges: ["Sharp edges inside: cut-proof gloves. Belt, fan and drum only by hand, with the plug out."],
  moving: [
    "Two persons from a stack, from a niche on carpet, or over 25 kg. Straps, floor protection, hoses long enough.",
  ],
  lint: [
    "Lint burns and is dust: mask, no compressed air indoors.",
    "Brown lint, scorch or a melted housing: out of service, in writing.",
  ],
  hot: ["Metal stays hot for 15 minutes; never leave a heat test alone."],
  water: ["Free water: off at the fuse box before the plug, no live step while any of it is there."],
  "on-the-phone": [
    "The caller opens nothing, and resets a protector or RCD once at most, never after smell, tingle or water.",
  ],
  "open-flue": ["A vented machine in a room with an open flue can pull flue gas in: ask, look, tell, write it down."],
} as const satisfies Record<string, readonly string[]>;

/** A general caution by its code. */
export function caution(code: CautionCode): Caution {
  return { code, lines: WORDS[code] };
}

/** A caution in the sheet's own words. */
export function sheetCaution(text: string): Caution {
  return { code: "sheet", lines: [text] };
}
