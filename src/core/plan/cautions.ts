import type { SetUpAct } from "./set-up.ts";
import type { Store } from "./stored-energy.ts";

/** Code of a general caution; its words are in the table below: one line, two where leads are on live parts. */
export type CautionCode = keyof typeof WORDS;

/** A caution that belongs to this very step: a general one by code, the sheet's own words, or several in short. */
export interface Caution {
  readonly code: CautionCode | "sheet" | "also";
  readonly lines: readonly string[];
}

/**
 * What can hurt someone, and what to do about it. Common practice, no source, save where a number is computed elsewhere.
 * Local rules and licensed practice come first.
 */
const WORDS = {
  isolate: [
    "Plug out, and in sight or in your pocket; fixed wiring locked off. A shared spur or a delayed start can bring power back: local rules first.",
  ],
  "prove-dead": [
    "Prove dead with a two-pole tester: on a known live point, on all poles and earth, on the live point again; anew after every energising. A multimeter alone is no proof.",
  ],
  "case-first": [
    "Touch no metal before a two-pole tester between case and a known earth reads nothing. If it tingles: off at the fuse box first, only then unplug.",
  ],
  "filter-capacitor": [
    "The filter may hold a charge at the plug pins: wait for it, then bridge the pins with a resistor, not with fingers.",
  ],
  "bus-capacitor": [
    "The motor module keeps a charge that can kill: 2.2 kΩ 10 W clip lead for 5 s, measure DC, wait, measure again: under 34 V.",
  ],
  "run-capacitor": [
    "Discharge the capacitor with a 10 kΩ 5 W insulated clip resistor, never a screwdriver; measure under 10 V DC, then take one wire off.",
  ],
  closed: [
    "Nothing opened, covers on, stand clear; stop at smell, smoke, tripping or tingling. Where it smelt burnt or water stands near the plug it stays unplugged.",
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
    "L and N joined, against earth, never L against N; nobody touching; board and sensors unplugged for a winding; 250 V where there are surge arresters; discharge after it: under 25 V.",
  ],
  edges: ["Sharp edges inside: cut-proof gloves."],
  belt: ["Belt, fan and drum only by hand, with the plug out."],
  moving: [
    "Two persons from a stack, from a niche on carpet, or over 25 kg; straps, floor protection, hoses long enough.",
  ],
  lint: [
    "Lint burns and is dust: mask, no compressed air indoors. Brown lint, scorch or a melted housing: out of service, in writing.",
  ],
  hot: ["Metal stays hot for 15 minutes; never leave a heat test alone."],
  water: ["Free water: off at the fuse box before the plug, no live step while any of it is there."],
  "on-the-phone": [
    "The caller opens nothing, and resets a protector or RCD once at most, never after smell, tingle or water.",
  ],
  "open-flue": ["A vented machine in a room with an open flue can pull flue gas in: ask, look, tell, write it down."],
} as const satisfies Record<string, readonly string[]>;

/** The same in a few words, for the end of a long list. */
const SHORT: Readonly<Record<CautionCode, string>> = {
  isolate: "plug out and in your pocket",
  "prove-dead": "prove dead on all poles",
  "case-first": "test the case for voltage before touching it",
  "filter-capacitor": "wait before touching the plug pins",
  "bus-capacitor": "discharge the motor module and measure it",
  "run-capacitor": "discharge the run capacitor and measure it",
  closed: "covers on, stand clear",
  "rcd-lead": "energise through a 30 mA RCD lead only",
  clipped: "clip on dead, hands away",
  handheld: "never alone by hand",
  "no-bridging": "no protector and no door switch is bridged",
  insulation: "insulation tester against earth only, discharge after it",
  edges: "sharp edges, gloves",
  belt: "belt, fan and drum by hand only",
  moving: "two persons to move it",
  lint: "lint dust, mask",
  hot: "metal hot for 15 minutes",
  water: "no live step near free water",
  "on-the-phone": "the caller opens nothing",
  "open-flue": "vent and open flue in one room: say so in writing",
};

/** What holds at every step of its sort, whatever lies at the place. */
const GENERAL: ReadonlySet<Caution["code"]> = new Set([
  "isolate",
  "prove-dead",
  "case-first",
  "no-bridging",
  "filter-capacitor",
  "edges",
  "belt",
  "moving",
]);

/**
 * Those of a step's cautions that may be acknowledged once for the whole job. What belongs to the very step never is: leads
 * on live parts and the proof of being dead around them, a charge that kills, water, heat, the sheet's own words, and what
 * is told in short at the end of a long list.
 */
export function generalOf(cautions: readonly Caution[]): readonly Caution[] {
  const live = cautions.some(({ code }) => code === "clipped" || code === "handheld");
  return cautions.filter(({ code }) => GENERAL.has(code) && !(live && code === "prove-dead"));
}

/** A general caution by its code. */
export function caution(code: CautionCode): Caution {
  return { code, lines: WORDS[code] };
}

/** Most lines of caution at one step: more are not read. */
const MOST_LINES = 5;

/** What kills first, then what this very place holds, then what cuts and burns, last what every dead step has. */
const ORDER: readonly Caution["code"][] = [
  "on-the-phone",
  "handheld",
  "clipped",
  "rcd-lead",
  "bus-capacitor",
  "run-capacitor",
  "insulation",
  "case-first",
  "water",
  "closed",
  "sheet",
  "no-bridging",
  "filter-capacitor",
  "belt",
  "open-flue",
  "hot",
  "lint",
  "moving",
  "prove-dead",
  "isolate",
  "edges",
  "also",
];

/**
 * Cautions of one step: each subject once, the most dangerous first, five lines at most. What would be too much is told
 * in a few words in the last line; nothing is dropped.
 *
 * @param own    general cautions of the step by code
 * @param sheet  cautions of sheet and kinds: codes of general ones, or words of their own
 * @param held   sorts of charges that a hand may meet
 */
export function cautionsFor(
  own: readonly CautionCode[],
  sheet: readonly string[],
  setUp: readonly SetUpAct[],
  held: readonly Store[],
): Caution[] {
  const codes = new Set<CautionCode>([
    ...own,
    ...sheet.filter(isCode),
    ...held.map((store) => `${store}-capacitor` as const),
  ]);
  const doing = new Set(setUp.map((act) => act.do));
  if (doing.has("prove dead")) codes.add("prove-dead");
  if (doing.has("plug out")) codes.add("isolate");
  if (setUp.some((act) => act.do === "open" && act.needs.length > 0)) codes.add("moving");
  const words = [...new Set(sheet)].filter((text) => !isCode(text));
  // With leads on live parts, proof of being dead is no generality: it is what each turn begins and ends with.
  const live = codes.has("clipped") || codes.has("handheld");
  const place = ({ code }: Caution): number =>
    live && code === "prove-dead" ? ORDER.indexOf("clipped") + 0.5 : ORDER.indexOf(code);
  return fitted([...[...codes].map(caution), ...words.map(sheetCaution)].sort((a, b) => place(a) - place(b)));
}

/** As many in full as leave a line for the rest. */
function fitted(all: readonly Caution[]): Caution[] {
  const lines = (some: readonly Caution[]): number => some.reduce((sum, { lines }) => sum + lines.length, 0);
  if (lines(all) <= MOST_LINES) return [...all];
  let whole = all.length;
  while (lines(all.slice(0, whole)) > MOST_LINES - 1) whole--;
  const rest = all.slice(whole).map((one) => (isCode(one.code) ? SHORT[one.code] : one.lines.join(" ")));
  return [...all.slice(0, whole), { code: "also", lines: [`Also: ${rest.join("; ")}.`] }];
}

function isCode(text: string): text is CautionCode {
  return Object.hasOwn(WORDS, text);
}

/** A caution in the sheet's own words. */
function sheetCaution(text: string): Caution {
  return { code: "sheet", lines: [text] };
}
