import { VALUE_KEYS, type WrittenEvent, writtenEvents } from "../ledger/index.ts";
import type { Quantity } from "../meter/index.ts";
import type { Act, RunName } from "./act.ts";
import type { Judgement } from "./judge-act.ts";
import type { Place } from "./place.ts";
import type { Practice } from "./practice.ts";

/** What came of something written down on a practice job. */
export interface Practised {
  /** What happened, as a job file writes it: with the machine's own answers. */
  readonly events: readonly WrittenEvent[];
  /** Why the rest was not done. */
  readonly refused?: Judgement;
}

/** Operations that are tried where nobody says how many. */
const OPERATIONS = 20;

/** Kinds that touch no machine: they are written down as they are. */
export function touchesMachine({ kind }: WrittenEvent): boolean {
  return TOUCHING.has(kind);
}

const TOUCHING: ReadonlySet<string> = new Set([
  "told",
  "heard",
  "seen",
  "looked",
  "opened",
  "closed",
  "unplugged",
  "isolated",
  "energised",
  "measured",
  "counted",
  "did",
  "why",
]);

/**
 * Does to a practice machine what an ordinary screen writes down. Whatever answer is written is passed over: the machine
 * gives its own. What is so already is passed over too; at what would hurt or cannot be, it stops.
 */
export function practise(practice: Practice, written: readonly WrittenEvent[]): Practised {
  const events: WrittenEvent[] = [];
  for (const one of written) {
    if (!touchesMachine(one)) {
      events.push(one);
      continue;
    }
    for (const act of actsOf(one, practice.place)) {
      const outcome = practice.do(act);
      if (outcome.kind === "done") events.push(...outcome.events.flatMap(writtenEvents));
      else if (outcome.kind === "obstacle" && outcome.obstacle.because === "already so") continue;
      else if (outcome.kind !== "taken back") return { events, refused: outcome };
    }
  }
  return { events };
}

function actsOf({ kind, body }: WrittenEvent, place: Place): readonly Act[] {
  const map = (typeof body === "object" && body !== null && !Array.isArray(body) ? body : {}) as Body;
  switch (kind) {
    case "told":
    case "heard":
      return [{ do: "ask", signs: Object.keys(map) }];
    case "seen":
      return [{ do: "watch", signs: Object.keys(map) }];
    case "looked":
      return [{ do: "look", at: [String(map.at)] }];
    case "opened":
      return namesIn(body).map((access) => ({ do: "open", access }));
    case "closed":
      return namesIn(body).map((access) => ({ do: "close", access }));
    case "unplugged":
      return [{ do: "plug out" }];
    case "isolated":
      return [{ do: "plug out" }, { do: "prove dead" }, { do: "discharge" }];
    case "energised":
      return [...togetherAgain(place), { do: "plug in" }];
    case "counted":
      return [...asItWas(map, place), { do: "count", pair: pairOf(map), of: Number(map.of) || OPERATIONS }];
    case "measured":
      return measuredActs(map, place);
    case "did":
      return [{ do: "mend", course: `${map.on}/${map.remedy}` }];
    case "why":
      return Object.entries(map).map(([protector, reason]) => ({ do: "why", protector, reason: String(reason) }));
    default:
      return [];
  }
}

type Body = Readonly<Record<string, unknown>>;

function measuredActs(map: Body, place: Place): readonly Act[] {
  if (map.cause !== undefined) return [{ do: "gauge", cause: String(map.cause), measure: String(map.what) }];
  const run = runOf(map);
  const quantity = quantityIn(map);
  const pairs = map.from === undefined ? [] : [pairOf(map)];
  const measure: Act = { do: "measure", quantity, pairs, ...(run === undefined ? {} : { run }) };
  return run === undefined ? [...asItWas(map, place), measure] : [...togetherAgain(place), measure];
}

function runOf(map: Body): RunName | undefined {
  if (map.in !== undefined) return { kind: "step", id: String(map.in) };
  if (map.condition !== undefined) return { kind: "condition", id: String(map.condition) };
  return map.command === undefined ? undefined : { kind: "command", id: String(map.command) };
}

function quantityIn(map: Body): Quantity {
  for (const key of Object.keys(map)) {
    const quantity = VALUE_KEYS.get(key);
    if (quantity !== undefined) return quantity;
  }
  return "ohms";
}

function pairOf({ from, to, joined }: Body) {
  return { from: String(from), to: String(to), joinedWith: namesIn(joined) };
}

/** Connectors and wires off and on until they are as the reading has them. */
function asItWas(map: Body, place: Place): readonly Act[] {
  const pulled = namesIn(map.pulled);
  const freed = namesIn(map.freed);
  return [
    ...[...place.pulled].filter((plug) => !pulled.includes(plug)).map((plug): Act => ({ do: "push", plug })),
    ...pulled.map((plug): Act => ({ do: "pull", plug })),
    ...[...place.freed].filter((part) => !freed.includes(part)).map((part): Act => ({ do: "refit", part })),
    ...freed.map((part): Act => ({ do: "free", part })),
    ...Object.entries((map.hands ?? {}) as Readonly<Record<string, number>>).map(
      ([input, to]): Act => ({ do: "hold", input, to: Number(to) }),
    ),
  ];
}

function togetherAgain(place: Place): readonly Act[] {
  return [
    ...[...place.pulled].map((plug): Act => ({ do: "push", plug })),
    ...[...place.freed].map((part): Act => ({ do: "refit", part })),
  ];
}

/** One name, or several. */
function namesIn(body: unknown): readonly string[] {
  if (body === undefined || body === null) return [];
  return Array.isArray(body) ? body.map(String) : [String(body)];
}
