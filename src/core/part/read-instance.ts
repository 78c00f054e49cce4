import type { Cursor } from "./cursor.ts";
import type { Answers } from "./instantiate.ts";
import type { BenchQuantity, BenchRule, Kind, KindInstance, RemedyRule } from "./kind.ts";
import { readElements } from "./read-elements.ts";
import { readFormulas } from "./read-formulas.ts";
import { readModes } from "./read-modes.ts";
import { readStateSets } from "./read-states.ts";
import { readSource } from "./source.ts";

export const WHEN_ABSENT = ["joined", "removed"] as const;
export const PIN_KEYS = ["joint"] as const;
export const KIND_REMEDY_KEYS = ["for", "of", "remakes", "min", "odds", "part", "steps"] as const;
export const BENCH_KEYS = ["do", "what", "then", "reads", "follows", "good", "repeat"] as const;
export const BENCH_QUANTITIES = [
  "ohms",
  "insulation ohms",
  "volts dc",
  "farads",
  "watts",
  "litres per minute",
] as const satisfies readonly BenchQuantity[];
export const BENCH_FOLLOWS = ["copper"] as const;
export const BENCH_ACTS = ["measure", "energise", "look", "turn by hand"] as const;
export const DUTY_KEYS = ["one operation", "at most"] as const;

/** Reads a kind's written-out tree. Issues go to the cursor's list; what they spoil is left out. */
export function readInstance(root: Cursor, kind: Kind, answers: Answers): KindInstance {
  const pins = readPins(root, kind);
  const sets = readStateSets(root);
  const states = new Map(sets.flatMap((set) => set.states.map((state) => [state, set.name] as const)));
  const elements = readElements(root, answers, states);
  const knobs = new Map<string, number>();
  for (const [name, at] of root.field("knobs")?.entries() ?? []) knobs.set(name, at.number() ?? 0);
  const points = new Set([...pins.keys(), ...elements.flatMap((element) => [element.from, element.to])]);
  const names = {
    elements: elements.map((element) => element.name),
    points,
    states: new Set(states.keys()),
    knobs: new Set(knobs.keys()),
  };
  const { stateSets, gives } = readFormulas(root, sets, names, answers);
  const duty = readDuty(root.field("duty"));
  return {
    kind: kind.id,
    says: kind.says,
    ratings: answers.ratings,
    conditions: answers.conditions,
    words: answers.words,
    pins,
    elements,
    stateSets,
    knobs,
    gives,
    modes: readModes(root, names),
    remedies: readRemedies(root),
    bench: readBench(root),
    ...(duty === undefined ? {} : { duty }),
    hazards: root.field("hazards")?.words() ?? [],
    benchHazards: root.field("bench-hazards")?.words() ?? [],
    whenAbsent: root.field("when-absent")?.choice(WHEN_ABSENT) ?? "removed",
    share: root.field("share")?.number(0, 100) ?? 0,
    ...(kind.source === undefined ? {} : { source: kind.source }),
  };
}

function readPins(root: Cursor, kind: Kind): ReadonlyMap<string, string> {
  const pins = new Map<string, string>();
  for (const [name, at] of root.need("pins", "pins: pin: class of its joint")?.entries() ?? []) {
    if (at.isMap) at.onlyKeys(PIN_KEYS);
    const joint = (at.isMap ? at.need("joint") : at)?.word("the class of the joint, or none");
    if (kind.asks.has(name)) at.refuse("part.kind.pin-and-rating", "a pin whose name is no rating", undefined, name);
    if (joint !== undefined) pins.set(name, joint);
  }
  return pins;
}

function readRemedies(root: Cursor): readonly RemedyRule[] {
  return (root.field("remedies")?.entries() ?? []).flatMap(([name, at]) => {
    at.onlyKeys(KIND_REMEDY_KEYS);
    const cures = at.need("for", "for: the modes it cures, or all")?.words() ?? [];
    const assembly = at.field("of")?.choice(["on"]) !== undefined;
    const remakes = at.field("remakes")?.choice(["joint"]) !== undefined;
    const minutes = at.need("min", "min: minutes of work")?.amount({ unit: "min" });
    const odds = at.need("odds", "odds: cured/back within 12 months")?.chancePair();
    const part = at.field("part")?.amount({ unit: "1" });
    if (minutes === undefined || odds === undefined) return [];
    const partShare = part ?? { nominal: 0, lo: 0, hi: 0, spread: "exact" as const, unit: "1" };
    const steps = at.field("steps")?.words() ?? [];
    return {
      name,
      cures,
      assembly,
      ...(remakes ? { remakes } : {}),
      minutes,
      partShare,
      cured: odds[0],
      back: odds[1],
      steps,
      ...(at.source === undefined ? {} : { source: at.source }),
    };
  });
}

function readBench(root: Cursor): readonly BenchRule[] {
  return (root.field("bench")?.items() ?? []).flatMap((at) => {
    at.onlyKeys(BENCH_KEYS);
    const act = at.need("do")?.choice(BENCH_ACTS);
    const what = at.need("what")?.word();
    const good = at.need("good", "good: what a good part shows")?.word();
    const reads = at.field("reads")?.choice(BENCH_QUANTITIES);
    const follows = at.field("follows")?.choice(BENCH_FOLLOWS);
    const then = at.field("then")?.word();
    const repeat = at.field("repeat")?.number(1, 10_000);
    if (act === undefined || what === undefined || good === undefined) return [];
    return {
      do: act,
      what,
      ...markedGood(at, good),
      ...(reads === undefined ? {} : { reads }),
      ...(follows === undefined ? {} : { follows }),
      ...(then === undefined ? {} : { then }),
      ...(repeat === undefined ? {} : { repeat }),
    };
  });
}

/** `≤ 0R2 @C`: what is good, and where that stands. */
function markedGood(at: Cursor, text: string): Pick<BenchRule, "good" | "source"> {
  const [, good = text, mark] = /^(.*?)(?:\s*@\s*(.*))?$/.exec(text) ?? [];
  const source = mark === undefined ? at.source : at.issues.take(readSource(mark, at.place));
  return { good, ...(source === undefined ? {} : { source }) };
}

/** `{one operation: 0.1 s, at most: 20 / min}` */
function readDuty(at: Cursor | undefined): KindInstance["duty"] {
  if (at === undefined) return undefined;
  at.onlyKeys(DUTY_KEYS);
  const seconds = at.need("one operation")?.amount({ unit: "s", positive: true });
  const most = at.field("at most");
  const text = most?.text();
  const match = text === undefined ? undefined : /^([\d.]+)\s*\/\s*(min|h)$/.exec(text);
  if (most !== undefined && !match) most.refuse("part.kind.duty", "so many a minute or an hour, as 20 / min");
  if (seconds === undefined) return undefined;
  const perMinute = match ? Number(match[1]) / (match[2] === "h" ? 60 : 1) : undefined;
  return {
    oneOperationSeconds: seconds.nominal,
    ...(perMinute === undefined ? {} : { atMostPerMinute: perMinute }),
  };
}
