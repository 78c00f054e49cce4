import { nearest } from "../part/index.ts";
import type { Course } from "../remedy/index.ts";
import type { Machine } from "../sheet/index.ts";
import type { RunName } from "./act.ts";

/** A thing with the name files use and the name people use. */
export interface Named {
  readonly id: string;
  readonly says: string;
  /** Further words by which it is met: what it looks like when it is bad. */
  readonly also?: string;
}

/** What names are of. */
export type Sort =
  | "sign"
  | "place"
  | "cover"
  | "connector"
  | "part"
  | "point"
  | "run"
  | "input"
  | "gauge"
  | "remedy"
  | "why";

/** Every name that may be typed about one machine. */
export interface Names {
  readonly of: Readonly<Record<Sort, readonly Named[]>>;
  readonly runs: ReadonlyMap<string, RunName>;
}

/** What a typed name means: one thing, several that it may mean, or none and what was probably meant. */
export type Choice =
  | { readonly kind: "one"; readonly id: string }
  | { readonly kind: "several"; readonly items: readonly Named[] }
  | { readonly kind: "none"; readonly near?: string };

/** All names of a machine and of what can be done to it. */
export function namesFor(machine: Machine, repairs: ReadonlyMap<string, Pick<Course, "id" | "says">>): Names {
  const parts = machine.parts.filter(({ joint }) => joint === undefined);
  const joints = machine.parts.filter(({ joint }) => joint !== undefined);
  const runs: readonly RunName[] = [
    ...machine.steps.map(({ id }) => ({ kind: "step" as const, id })),
    ...machine.conditions
      .filter((condition) => isPowered(machine, condition))
      .map(({ id }) => ({ kind: "condition" as const, id })),
    ...machine.serviceOutputs.map((output) => ({ kind: "command" as const, id: machine.variables[output].id })),
  ];
  const sayings = new Map([...machine.parts, ...machine.causes].map(({ id, says }) => [id, says]));
  return {
    of: {
      sign: machine.signs.map(({ id, ask }) => ({ id, says: ask })),
      place: [
        ...machine.causes.map(({ id, says, look }) => ({
          id,
          says,
          ...(look === undefined ? {} : { also: look.says }),
        })),
        ...[...parts, ...joints].map(named),
      ],
      cover: machine.access.map(named),
      connector: machine.plugs.filter(({ id }) => id !== "plug").map(({ id }) => ({ id, says: `connector ${id}` })),
      part: parts.map(named),
      point: machine.points.map(named),
      run: runs.map(({ kind, id }) => ({ id, says: kind === "command" ? `${id} switched on by itself` : id })),
      input: machine.variables.filter(({ role }) => role === "input").map(({ id }) => ({ id, says: id })),
      gauge: machine.causes.flatMap(({ id, measures }) =>
        measures.map((measure) => ({ id: `${id}/${measure.id}`, says: measure.says })),
      ),
      remedy: [...repairs.values()].map(named),
      why: [...machine.whyOpen].flatMap(([protector, reasons]) =>
        [...reasons.keys()]
          .filter(
            (reason) => sayings.has(reason.split("/")[0]) || !LOOKS_LIKE_AN_ID.test(reason) || reason === "itself",
          )
          .map((reason) => ({ id: `${protector}: ${reason}`, says: whySays(sayings, protector, reason) })),
      ),
    },
    runs: new Map(runs.map((run) => [run.id, run])),
  };
}

/** A reason without a space is the name of a part or cause; one of another variant is none here. */
const LOOKS_LIKE_AN_ID = /^[^ ]+$/;

/** "self-resetting cut-out, because of: heater: sagged to case" */
function whySays(sayings: ReadonlyMap<string, string>, protector: string, reason: string): string {
  const [owner, way] = reason.split("/");
  const because =
    way === undefined ? (sayings.get(owner) ?? reason) : `${sayings.get(owner) ?? owner}: ${way.replaceAll("*", "")}`;
  return `${sayings.get(protector) ?? protector}, because of: ${because}`;
}

/** A state in which the plug is out is no run. */
function isPowered({ variables }: Machine, { set }: Machine["conditions"][number]): boolean {
  return !set.some(({ variable, to }) => variables[variable].id === "plugged" && to === 0);
}

function named({ id, says }: Named): Named {
  return { id, says };
}

/**
 * What a typed name means, forgiving: the whole name, a beginning of one, or beginnings of its words in any order. A name
 * that fits better wins over those that fit less.
 */
export function choose(typed: string, from: readonly Named[], sort?: Sort): Choice {
  const wanted = typed.trim().toLowerCase();
  if (wanted === "") return { kind: "none" };
  const words = wanted.split(SEPARATORS).filter((word) => word !== "");
  const isJoint = ({ id }: Named): boolean => id.startsWith("joint ");
  const tiers: readonly ((one: Named) => boolean)[] = [
    ({ id }) => id.toLowerCase() === wanted,
    ({ says }) => says.toLowerCase() === wanted,
    ({ id }) => id.toLowerCase().startsWith(wanted),
    // A part goes before the connections at it.
    (one) => !isJoint(one) && meets(words, one.id),
    (one) => meets(words, one.id),
    (one) => !isJoint(one) && meets(words, one.says),
    (one) => meets(words, one.says),
    ({ id, says, also }) => meets(words, `${id} ${says} ${also ?? ""}`),
  ];
  for (const [tier, fits] of tiers.entries()) {
    const items = from.filter(fits);
    const [first] = items;
    if (first === undefined) continue;
    // One word from the midst of a question is a guess: it is asked back.
    const guess = sort === "sign" && tier > BY_ID && words.length === 1;
    return items.length === 1 && !guess ? { kind: "one", id: first.id } : { kind: "several", items };
  }
  const near = nearest(
    typed,
    from.map(({ id }) => id),
  );
  return { kind: "none", ...(near === undefined ? {} : { near }) };
}

/** Last tier that goes by the name files use. */
const BY_ID = 4;
const SEPARATORS = /[\s,;:()/?-]+/;

/** Does each typed word begin a word of the name, each its own? */
function meets(words: readonly string[], name: string): boolean {
  const own = name.toLowerCase().split(SEPARATORS);
  return (
    words.length > 0 &&
    words.every((word) => {
      const at = own.findIndex((one) => one.startsWith(word));
      if (at >= 0) own.splice(at, 1);
      return at >= 0;
    })
  );
}
