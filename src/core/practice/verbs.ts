import type { Quantity } from "../meter/index.ts";
import { nearest } from "../part/index.ts";
import type { View } from "./act.ts";

/** What the first words of a line ask for. */
export type Verb =
  | "ask"
  | "watch"
  | "look"
  | "open"
  | "close"
  | "plug out"
  | "plug in"
  | "prove dead"
  | "discharge"
  | "pull"
  | "push"
  | "free"
  | "refit"
  | "hold"
  | "measure"
  | "count"
  | "mend"
  | "why"
  | "bridge"
  | "verify"
  | "finish"
  | "stop"
  | "undo"
  | View;

/** Verbs with other words for them; a unique beginning of two letters or more means a verb too. */
const WORDS: Readonly<Record<Verb, readonly string[]>> = {
  ask: ["ask", "question", "q", "customer"],
  watch: ["watch", "run", "see", "start"],
  look: ["look", "l", "inspect", "feel", "look at"],
  open: ["open", "o", "take off", "remove cover"],
  close: ["close", "shut", "put back", "put on"],
  "plug out": ["plug out", "unplug", "out", "isolate", "power off", "switch off", "off"],
  "plug in": ["plug in", "in", "power on", "switch on", "energise", "on"],
  "prove dead": ["prove dead", "prove", "dead", "prove it dead", "tester"],
  discharge: ["discharge", "bleed"],
  pull: ["pull", "disconnect"],
  push: ["push", "plug", "push in", "reconnect", "plug together"],
  free: ["free", "wire off", "one wire off"],
  refit: ["refit", "wire on"],
  hold: ["hold", "press", "set"],
  measure: ["measure", "m", "meter", "read", "reading"],
  count: ["count", "operate", "repeat", "c"],
  mend: ["mend", "fit", "repair", "fix", "clean", "replace", "change", "do", "adjust", "advise", "reset", "free up"],
  why: ["why", "because"],
  bridge: ["bridge", "bypass", "jumper", "link out", "short out", "short"],
  verify: ["verify", "test", "v"],
  finish: ["finish", "done", "mended", "leave"],
  stop: ["stop", "quit", "exit", "give up", "bye"],
  undo: ["undo", "u", "take back"],
  next: ["next", "n", "hint", "what next"],
  faults: ["faults", "f", "odds", "possible faults"],
  history: ["history", "log", "so far"],
  help: ["help", "h", "?", "commands"],
  where: ["where", "w", "points", "pins"],
  remedies: ["remedies", "r", "what can be done"],
  state: ["state", "s", "status"],
};

const PHRASES: readonly (readonly [string, Verb])[] = (Object.keys(WORDS) as Verb[])
  .flatMap((verb) => WORDS[verb].map((phrase) => [phrase, verb] as const))
  .sort((a, b) => b[0].length - a[0].length);

/** Words by which a quantity is called at the meter; millivolts are volts on a lower range. */
const QUANTITY_WORDS: ReadonlyMap<string, Quantity> = new Map<string, Quantity>([
  ["ohms", "ohms"],
  ["ohm", "ohms"],
  ["Ω", "ohms"],
  ["resistance", "ohms"],
  ["continuity", "ohms"],
  ["volts", "volts"],
  ["volt", "volts"],
  ["v", "volts"],
  ["mv", "volts"],
  ["millivolts", "volts"],
  ["vdc", "volts dc"],
  ["dc", "volts dc"],
  ["amps", "amps"],
  ["ampere", "amps"],
  ["current", "amps"],
  ["watts", "watts"],
  ["watt", "watts"],
  ["power", "watts"],
  ["leakage", "leakage amps"],
  ["clamp", "leakage amps"],
  ["insulation", "insulation ohms"],
  ["megohm", "insulation ohms"],
  ["megohms", "insulation ohms"],
  ["farads", "farads"],
  ["farad", "farads"],
  ["microfarads", "farads"],
  ["uf", "farads"],
  ["µf", "farads"],
  ["capacitance", "farads"],
]);

export function quantityNamed(word: string): Quantity | undefined {
  return QUANTITY_WORDS.get(word.toLowerCase());
}

/** The verb a line begins with, and the rest of the line; or the verb it was probably meant to begin with. */
export function verbOf(line: string): { readonly verb: Verb; readonly rest: string } | { readonly near?: string } {
  const lower = line.toLowerCase();
  for (const [phrase, verb] of PHRASES) {
    if (lower === phrase || lower.startsWith(`${phrase} `)) return { verb, rest: line.slice(phrase.length).trim() };
  }
  const [first = ""] = line.split(/\s+/);
  if (quantityNamed(first) !== undefined) return { verb: "measure", rest: line };
  const rest = line.slice(first.length).trim();
  if (first.length >= 2) {
    const begun = new Set(PHRASES.filter(([phrase]) => phrase.startsWith(first.toLowerCase())).map(([, verb]) => verb));
    const [only] = begun;
    if (only !== undefined && begun.size === 1) return { verb: only, rest };
  }
  const near = nearest(
    first,
    PHRASES.map(([phrase]) => phrase),
  );
  return near === undefined ? {} : { near };
}
