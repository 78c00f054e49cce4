import { type Checked, IssueList } from "../issue/index.ts";
import { type Deck, type DeckElement, deckKey } from "./deck.ts";
import { valueWanted } from "./deck-value.ts";
import type { Asked, DeckFault, Question, Questions } from "./question.ts";

type Path = readonly (string | number)[];

const mostQuestions = 100_000;
const questionFields = new Set(["id", "set", "remove", "faults", "volts", "ohms", "amps", "watts", "dc", "partials"]);
/** Keys that an issue's code may end in; names of the asker's own do not. */
const codeWords = new Set([
  ...["hertz", "questions", ...questionFields],
  ...["series", "parallel", "scale", "leak", "open", "short", "to", "by"],
]);
const askedFields = ["volts", "ohms", "amps", "watts"] as const;

/** The names of a deck, as questions may use them: without case, and in the `r.x1.r2` manner too. */
export class DeckNames {
  readonly #elements = new Map<string, DeckElement>();
  readonly #nodes = new Map<string, string>([["0", "0"]]);

  constructor(deck: Deck) {
    for (const element of deck.elements) {
      this.#elements.set(deckKey(element.name), element);
      for (const node of [element.a, element.b]) this.#nodes.set(deckKey(node), deckKey(node));
    }
  }

  element(name: string): DeckElement | undefined {
    const key = deckKey(name);
    return this.#elements.get(key) ?? this.#elements.get(key.replace(/^[rclvi]\.(?=.)/, ""));
  }

  node(name: string): string | undefined {
    return this.#nodes.get(deckKey(name));
  }
}

/** Reads the questions asked of a deck (already parsed JSON); every wrong field is an issue. */
export function readQuestions(ask: unknown, deck: Deck, file?: string): Checked<Questions> {
  return new QuestionReader(new DeckNames(deck), file).read(ask);
}

class QuestionReader {
  readonly #issues = new IssueList();
  readonly #names: DeckNames;
  readonly #file: string | undefined;

  constructor(names: DeckNames, file: string | undefined) {
    this.#names = names;
    this.#file = file;
  }

  read(ask: unknown): Checked<Questions> {
    const top = this.#object(ask, [], new Set(["hertz", "questions"]));
    if (top === undefined) return this.#issues.conclude(() => ({ hertz: undefined, questions: [] }));
    const hertz =
      top.hertz === undefined ? undefined : this.#number(top.hertz, ["hertz"], "hertz above 0", above(0, 1e12));
    const list = this.#list(top.questions, ["questions"]);
    if (list.length > mostQuestions) this.#wrong(["questions"], list.length, `at most ${mostQuestions} questions`);
    const questions = list.slice(0, mostQuestions).flatMap((item, at) => this.#question(item, ["questions", at]) ?? []);
    const needsHertz = questions.find(({ asked, dc }) => asked.kind !== "ohms" && !dc);
    if (top.hertz === undefined && needsHertz !== undefined)
      this.#wrong(
        ["hertz"],
        undefined,
        `a number, since question ${needsHertz.id} is AC`,
        `Give "hertz", or "dc": true.`,
      );
    return this.#issues.conclude(() => ({ hertz, questions }));
  }

  #wrong(at: Path, found: unknown, expected: string, hint?: string): undefined {
    const text = found === undefined ? "nothing" : JSON.stringify(found);
    this.#issues.add({
      code: `ask.${at.findLast((step) => typeof step === "string" && codeWords.has(step)) ?? "form"}`,
      severity: "error",
      ...(this.#file === undefined ? {} : { file: this.#file }),
      at,
      found: text.length > 80 ? `${text.slice(0, 77)}...` : text,
      expected,
      ...(hint === undefined ? {} : { hint }),
    });
    return undefined;
  }

  #object(value: unknown, at: Path, fields?: ReadonlySet<string>): Readonly<Record<string, unknown>> | undefined {
    if (typeof value !== "object" || value === null || Array.isArray(value))
      return this.#wrong(at, value ?? null, "an object {...}");
    const entries = Object.entries(value);
    for (const [key] of entries) {
      if (fields !== undefined && !fields.has(key)) this.#wrong([...at, key], key, `one of ${[...fields].join(", ")}`);
    }
    return Object.fromEntries(entries);
  }

  #list(value: unknown, at: Path): readonly unknown[] {
    if (Array.isArray(value)) return value;
    this.#wrong(at, value, "a list [...]");
    return [];
  }

  #number(value: unknown, at: Path, expected: string, good: (value: number) => boolean): number | undefined {
    if (typeof value !== "number" || !Number.isFinite(value) || !good(value)) return this.#wrong(at, value, expected);
    return value;
  }

  #flag(value: unknown, at: Path): boolean {
    if (value !== undefined && typeof value !== "boolean") this.#wrong(at, value, "true or false");
    return value === true;
  }

  #element(value: unknown, at: Path): DeckElement | undefined {
    const element = typeof value === "string" ? this.#names.element(value) : undefined;
    return element ?? this.#wrong(at, value, "the name of an element of the deck");
  }

  #node(value: unknown, at: Path): string | undefined {
    const node = typeof value === "string" ? this.#names.node(value) : undefined;
    return node ?? this.#wrong(at, value, "the name of a node of the deck");
  }

  #question(value: unknown, at: Path): Question | undefined {
    const fields = this.#object(value, at, questionFields);
    if (fields === undefined) return undefined;
    const id =
      typeof fields.id === "string" && fields.id !== "" ? fields.id : this.#wrong([...at, "id"], fields.id, "a text");
    const asked = this.#asked(fields, at);
    const set = this.#set(fields.set, [...at, "set"]);
    const remove = new Set<string>();
    if (fields.remove !== undefined)
      this.#list(fields.remove, [...at, "remove"]).forEach((name, n) => {
        const element = this.#element(name, [...at, "remove", n]);
        if (element !== undefined) remove.add(deckKey(element.name));
      });
    const faults =
      fields.faults === undefined
        ? []
        : this.#list(fields.faults, [...at, "faults"]).flatMap(
            (fault, n) => this.#fault(fault, [...at, "faults", n]) ?? [],
          );
    const partials = this.#flag(fields.partials, [...at, "partials"]);
    const dc = this.#flag(fields.dc, [...at, "dc"]);
    if (id === undefined || asked === undefined) return undefined;
    if (partials && asked.kind !== "volts" && asked.kind !== "ohms")
      this.#wrong([...at, "partials"], true, "false: partials are given for volts and ohms");
    if ("element" in asked && remove.has(asked.element))
      this.#wrong([...at, asked.kind], asked.element, "an element that this question does not remove");
    return { id, asked, set, remove, faults, partials, dc };
  }

  #asked(fields: Readonly<Record<string, unknown>>, at: Path): Asked | undefined {
    const present = askedFields.filter((field) => fields[field] !== undefined);
    if (present.length !== 1) return this.#wrong(at, present, `exactly one of ${askedFields.join(", ")}`);
    const kind = present[0];
    const value = fields[kind];
    if (kind === "amps" || kind === "watts") {
      const element = this.#element(value, [...at, kind]);
      return element === undefined ? undefined : { kind, element: deckKey(element.name) };
    }
    const pair = this.#list(value, [...at, kind]);
    if (pair.length !== 2) return this.#wrong([...at, kind], value, "two nodes");
    const a = this.#node(pair[0], [...at, kind, 0]);
    const b = this.#node(pair[1], [...at, kind, 1]);
    return a === undefined || b === undefined ? undefined : { kind, a, b };
  }

  #set(value: unknown, at: Path): Map<string, number> {
    const set = new Map<string, number>();
    if (value === undefined) return set;
    for (const [name, to] of Object.entries(this.#object(value, at) ?? {})) {
      const element = this.#element(name, [...at, name]);
      if (element === undefined) continue;
      const wanted = typeof to === "number" && Number.isFinite(to) ? valueWanted(element.kind, to) : "a number";
      if (wanted !== undefined) this.#wrong([...at, name], to, wanted);
      else if (typeof to === "number") set.set(deckKey(element.name), to);
    }
    return set;
  }

  #fault(value: unknown, at: Path): DeckFault | undefined {
    const fields = this.#object(value, at);
    if (fields === undefined) return undefined;
    const ohms = (): number | undefined =>
      this.#number(
        fields.ohms,
        [...at, "ohms"],
        valueWanted("R", -1) ?? "ohms",
        (r) => valueWanted("R", r) === undefined,
      );
    const only = (...names: readonly string[]): void => {
      for (const key of Object.keys(fields))
        if (!names.includes(key)) this.#wrong([...at, key], key, `only ${names.join(", ")} in this fault`);
    };
    for (const does of ["series", "parallel"] as const) {
      if (fields[does] === undefined) continue;
      only(does, "ohms");
      const element = this.#element(fields[does], [...at, does]);
      const r = ohms();
      return element === undefined || r === undefined ? undefined : { does, element: deckKey(element.name), ohms: r };
    }
    for (const does of ["open", "short"] as const) {
      if (fields[does] === undefined) continue;
      only(does);
      const element = this.#element(fields[does], [...at, does]);
      return element === undefined ? undefined : { does, element: deckKey(element.name) };
    }
    if (fields.scale !== undefined) {
      only("scale", "by");
      const element = this.#element(fields.scale, [...at, "scale"]);
      const by = this.#number(
        fields.by,
        [...at, "by"],
        "a factor, 0 or 1e-12 to 1e12",
        (f) => f === 0 || (f >= 1e-12 && f <= 1e12),
      );
      return element === undefined || by === undefined
        ? undefined
        : { does: "scale", element: deckKey(element.name), by };
    }
    if (fields.leak !== undefined) {
      only("leak", "to", "ohms");
      const node = this.#node(fields.leak, [...at, "leak"]);
      const to = this.#node(fields.to, [...at, "to"]);
      const r = ohms();
      return node === undefined || to === undefined || r === undefined
        ? undefined
        : { does: "leak", node, to, ohms: r };
    }
    return this.#wrong(at, value, "a fault: series, parallel, scale, leak, open or short");
  }
}

function above(low: number, high: number): (value: number) => boolean {
  return (value) => value > low && value <= high;
}
