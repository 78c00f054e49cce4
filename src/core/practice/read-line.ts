import type { Act, Pair, RunName, View } from "./act.ts";
import { VIEWS } from "./act.ts";
import { choose, type Named, type Names, type Sort } from "./names.ts";
import { type Points, readPoints } from "./points.ts";
import { quantityNamed, type Verb, verbOf } from "./verbs.ts";

/** Things to choose from by number: what is chosen is put between `before` and `after` and read again. */
export interface Offer {
  /** Pairs of points, whole lines, or names of a sort. */
  readonly of: Sort | "pair" | "line";
  readonly before: string;
  readonly after: string;
  readonly items: readonly Named[];
  /** Several may be chosen at once, or all. */
  readonly several: boolean;
}

/** What a typed line means. */
export type Reading =
  | { readonly kind: "act"; readonly act: Act }
  | { readonly kind: "view"; readonly view: View; readonly of: string }
  | { readonly kind: "undo" }
  | { readonly kind: "offer"; readonly offer: Offer }
  | { readonly kind: "unclear"; readonly word: string; readonly expected: Expected; readonly near?: string }
  | { readonly kind: "nothing" };

/** What was expected where a word was not understood. */
export type Expected = Sort | "verb" | "number" | "two points" | "operations";

const MOST_OPERATIONS = 500;
/** Measured at the plug as a whole where no points are named. */
const AT_THE_PLUG = new Set(["watts", "amps", "leakage amps"]);
/** Words that lead to the name of a run. */
const IN_RUN = /^(.*?)(?:^|\s)(?:in|during|with|while)\s+(.+?)(?:\s+(?:on|running))?$/i;

/**
 * What a line means at this machine. Forgiving: other words for a verb, beginnings of names, words in any order.
 * Pure: nothing is done.
 */
export function readLine(line: string, names: Names): Reading {
  const text = line.trim().replace(/\s+/g, " ");
  if (text === "" || text.startsWith("#")) return { kind: "nothing" };
  const met = verbOf(text);
  if (!("verb" in met)) return { kind: "unclear", word: text.split(" ")[0], expected: "verb", ...met };
  return readVerb(met.verb, met.rest, names);
}

/**
 * A line with the numbers of what was offered last filled in: `2`, `1 3`, `all`, or after the same verb, `look 2`.
 *
 * @returns the line itself where it holds no such numbers
 */
export function fillIn(line: string, offered: Offer | undefined): string {
  const text = line.trim().replace(/\s+/g, " ");
  if (offered === undefined) return text;
  const filled = fromOffer(text, offered);
  if (filled !== undefined) return filled;
  const met = verbOf(text);
  const again = "verb" in met ? fromOffer(met.rest, offered) : undefined;
  if (again === undefined || !("verb" in met)) return text;
  const meant = verbOf(again);
  return "verb" in meant && meant.verb === met.verb ? again : text;
}

/** The line that the numbers of an offer stand for; undefined where they are none. */
function fromOffer(text: string, { of, before, after, items, several }: Offer): string | undefined {
  const wanted = text.toLowerCase() === "all" && several ? items.map((_, n) => n + 1) : numbersIn(text);
  if (wanted === undefined || wanted.length === 0 || (wanted.length > 1 && !several)) return undefined;
  const chosen = wanted.map((n) => items[n - 1]);
  if (chosen.some((item) => item === undefined)) return undefined;
  const together = chosen.map(({ id }) => id).join(of === "line" ? "; " : ", ");
  return `${before} ${together} ${after}`.trim();
}

function numbersIn(text: string): readonly number[] | undefined {
  return /^\d+(?:[\s,]+\d+)*$/.test(text) ? text.split(/[\s,]+/).map(Number) : undefined;
}

function readVerb(verb: Verb, rest: string, names: Names): Reading {
  if (isView(verb)) return { kind: "view", view: verb, of: rest };
  switch (verb) {
    case "ask":
    case "watch":
      return several(verb, "sign", rest, names, (signs) => ({ do: verb, signs }));
    case "look":
      return several(verb, "place", rest.replace(/^(at|for) /, ""), names, (at) => ({ do: "look", at }));
    case "open":
    case "close":
      return one(verb, "cover", rest, names, (access) => ({ do: verb, access }));
    case "pull":
    case "push":
      return one(verb, "connector", rest, names, (plug) => ({ do: verb, plug }));
    case "free":
    case "refit":
      return one(verb, "part", rest, names, (part) => ({ do: verb, part }));
    case "plug in":
      // "plug X3" puts a connector together; a bare "plug in" is the mains plug.
      return rest === "" ? act({ do: verb }) : one("push", "connector", rest, names, (plug) => ({ do: "push", plug }));
    case "plug out":
      return rest === "" ? act({ do: verb }) : one("pull", "connector", rest, names, (plug) => ({ do: "pull", plug }));
    case "prove dead":
    case "discharge":
      return act({ do: verb });
    case "hold":
      return readHold(rest, names);
    case "measure":
      return readMeasure(rest, names);
    case "count":
      return readCount(rest, names);
    case "mend":
      return readMend(rest, names);
    case "why":
      return one(verb, "why", rest, names, (id) => {
        const at = id.indexOf(": ");
        return { do: "why", protector: id.slice(0, at), reason: id.slice(at + 2) };
      });
    case "stop":
      return act({ do: "stop", says: rest });
    case "undo":
      return { kind: "undo" };
    case "bridge":
    case "verify":
    case "finish":
      return act({ do: verb });
  }
}

function isView(verb: Verb): verb is View {
  return (VIEWS as readonly string[]).includes(verb);
}

function act(act: Act): Reading {
  return { kind: "act", act };
}

function offer(of: Offer["of"], before: string, items: readonly Named[], several: boolean, after = ""): Reading {
  return { kind: "offer", offer: { of, before, after, items, several } };
}

function one(verb: Verb, sort: Sort, rest: string, names: Names, make: (id: string) => Act): Reading {
  if (rest === "") {
    // Of remedies there are too many to be listed without a part.
    if (sort === "remedy") return { kind: "unclear", word: verb, expected: sort };
    return offer(sort, verb, names.of[sort], false);
  }
  const choice = choose(rest, names.of[sort], sort);
  if (choice.kind === "one") return act(make(choice.id));
  if (choice.kind === "several") return offer(sort, verb, choice.items, false);
  return { kind: "unclear", word: rest, expected: sort, ...(choice.near === undefined ? {} : { near: choice.near }) };
}

/** Names one after the other, with commas between; a name that holds a comma is met as a whole first. */
function several(verb: Verb, sort: Sort, rest: string, names: Names, make: (ids: readonly string[]) => Act): Reading {
  if (rest === "")
    return offer(
      sort,
      verb,
      names.of[sort].filter(({ id }) => !id.startsWith("joint ")),
      true,
    );
  const whole = choose(rest, names.of[sort], sort);
  if (whole.kind === "one") return act(make([whole.id]));
  if (whole.kind === "several") return offer(sort, verb, whole.items, true);
  const ids: string[] = [];
  for (const piece of rest.split(/,| and /).map((text) => text.trim())) {
    if (piece === "") continue;
    const choice = choose(piece, names.of[sort], sort);
    if (choice.kind === "several") return offer(sort, verb, choice.items, true);
    if (choice.kind === "none") {
      return {
        kind: "unclear",
        word: piece,
        expected: sort,
        ...(choice.near === undefined ? {} : { near: choice.near }),
      };
    }
    ids.push(choice.id);
  }
  return act(make([...new Set(ids)]));
}

/** A part alone offers what can be done to it, with its price, even where that is one thing: money is not spent unseen. */
function readMend(rest: string, names: Names): Reading {
  // "motor" is the motor, not its relay.
  const own = names.of.remedy.filter(({ id }) => id.startsWith(`${rest.toLowerCase()}/`));
  if (own.length > 0 && !own.some(({ id }) => id === rest)) return offer("remedy", "mend", own, false);
  const made = one("mend", "remedy", rest, names, (course) => ({ do: "mend", course }));
  if (made.kind !== "act" || made.act.do !== "mend") return made;
  const { course } = made.act;
  const remedy = names.of.remedy.filter(({ id }) => id === course);
  const ofRemedy = remedy.map(({ id }) => ({ id: id.slice(id.lastIndexOf("/") + 1), says: "" }));
  const named = rest.split(" ").some((word) => choose(word, ofRemedy).kind === "one");
  return named || rest === course ? made : offer("remedy", "mend", remedy, false);
}

function readHold(rest: string, names: Names): Reading {
  const match = /^(.*?)(?:\s+(?:at\s+|to\s+)?(-?\d+(?:\.\d+)?))?$/.exec(rest);
  const [, name = "", value] = match ?? [];
  const made = one("hold", "input", name, names, (input) => ({ do: "hold", input, to: Number(value ?? 1) }));
  return made.kind === "offer" ? { kind: "offer", offer: { ...made.offer, after: value ?? "" } } : made;
}

function readMeasure(rest: string, names: Names): Reading {
  const [, head = rest, runText] = IN_RUN.exec(rest) ?? [];
  const words = head.split(" ").filter((word) => word !== "" && word !== "at" && word !== "across");
  // A quantity stands first or last; a terminal may be called v.
  const quantityWords = words.map((word, n) =>
    n === 0 || (word.length > 1 && (n === 1 || n === words.length - 1)) ? quantityNamed(word) : undefined,
  );
  const typed = quantityWords.includes("volts dc")
    ? "volts dc"
    : quantityWords.find((quantity) => quantity !== undefined);
  const points = words.filter((_, n) => quantityWords[n] === undefined).join(" ");

  const where = typed !== undefined && AT_THE_PLUG.has(typed) && points === "plug" ? "" : points;

  if (where === "" && typed === undefined) return offer("connector", "measure", names.of.connector, false);
  // "watts heat": at the plug a bare word after the quantity is the run.
  const atPlug = typed !== undefined && AT_THE_PLUG.has(typed);
  const bareRun = runText === undefined && atPlug && where !== "" && choose(where, names.of.run).kind === "one";
  const run = readRun(bareRun ? where : runText, names, `measure ${bareRun ? typed : head} in`);
  if (run !== undefined && "kind" in run && run.kind !== "run") return run.reading;
  const named = run?.run;
  const quantity = typed ?? (named === undefined ? "ohms" : "volts");
  const live = quantity.startsWith("volts") || AT_THE_PLUG.has(quantity);
  if ((where === "" || bareRun) && atPlug) {
    if (named === undefined) return offer("run", `measure ${quantityWord(quantity)} in`, names.of.run, false);
    return act({ do: "measure", quantity, pairs: [], run: named });
  }
  if (where === "") return { kind: "unclear", word: head, expected: "two points" };

  const met = readPoints(where, names.of.point);
  if (met.kind === "choose") {
    const after = named === undefined ? "" : `in ${named.id}`;
    return offer("pair", `measure ${quantityWord(quantity)}`, met.pairs.map(pairAsNamed), true, after);
  }
  if (met.kind === "unclear") return typed === undefined ? readGauge(where, names, met) : notPoints(met);
  if (live && named === undefined) return offer("run", `measure ${head} in`, names.of.run, false);
  return act({ do: "measure", quantity, pairs: met.pairs, ...(named === undefined ? {} : { run: named }) });
}

function quantityWord(quantity: string): string {
  return quantity === "volts dc" ? "dc" : (quantity.split(" ")[0] ?? quantity);
}

function pairAsNamed({ from, to }: Pair): Named {
  return { id: `${from} to ${to}`, says: "" };
}

type RunRead =
  | { readonly kind: "run"; readonly run: RunName }
  | { readonly kind: "other"; readonly run?: undefined; readonly reading: Reading };

function readRun(text: string | undefined, names: Names, before: string): RunRead | undefined {
  if (text === undefined) return undefined;
  const choice = choose(text, names.of.run);
  if (choice.kind === "several") return { kind: "other", reading: offer("run", before, choice.items, false) };
  const run = choice.kind === "one" ? names.runs.get(choice.id) : undefined;
  if (run !== undefined) return { kind: "run", run };
  const near = choice.kind === "none" && choice.near !== undefined ? { near: choice.near } : {};
  return { kind: "other", reading: { kind: "unclear", word: text, expected: "run", ...near } };
}

/** No points: a measurement of a cause may be meant. */
function readGauge(where: string, names: Names, points: Extract<Points, { kind: "unclear" }>): Reading {
  const choice = choose(where, names.of.gauge);
  if (choice.kind === "several") return offer("gauge", "measure", choice.items, false);
  if (choice.kind === "none") return notPoints(points);
  const at = choice.id.indexOf("/");
  return act({ do: "gauge", cause: choice.id.slice(0, at), measure: choice.id.slice(at + 1) });
}

function notPoints({ word, near }: Extract<Points, { kind: "unclear" }>): Reading {
  return { kind: "unclear", word, expected: "two points", ...(near === undefined ? {} : { near }) };
}

function readCount(rest: string, names: Names): Reading {
  const [, where = "", times] = /^(.*?)\s+(\d+)(?:\s+times)?$/.exec(rest) ?? [];
  const of = Number(times);
  if (times === undefined || of < 1 || of > MOST_OPERATIONS)
    return { kind: "unclear", word: rest, expected: "operations" };
  const points = readPoints(where, names.of.point);
  if (points.kind === "unclear") return notPoints(points);
  const [pair, more] = points.pairs;
  if (pair === undefined) return { kind: "unclear", word: where, expected: "two points" };
  if (more !== undefined) return offer("pair", "count", points.pairs.map(pairAsNamed), false, times);
  return act({ do: "count", pair, of });
}
