import { Cursor, didYouMean, type Kind, type Place, type Tree } from "../part/index.ts";
import { parseAmount } from "../quantity/index.ts";
import type { Draft, DraftPart } from "./draft.ts";
import { readPart } from "./draw.ts";
import type { Library } from "./house.ts";

/**
 * Changes a family's circuit into this machine's, one sentence after the other. Four sentences are understood:
 *
 *   cut-out absent                                   its place is joined or empty, as its kind says
 *   insert cut-out-3 like one-shot after one-shot.b  cuts the wire at that pin and puts a part between
 *   heater.P is 1000 W                               a rating, a wire, a share of a part
 *   pin X3.2 is X3.4                                 the wire of pin 2 sits at pin 4 (what was there moves to 2)
 */
export function applyDifferences(draft: Draft, differences: readonly string[], library: Library): void {
  differences.forEach((text, index) => {
    const place: Place = { at: ["differences", index] };
    const refuse: Refuse = (expected, hint) => {
      draft.issues.add({
        code: "sheet.difference",
        severity: "error",
        ...place,
        found: `"${text}"`,
        expected,
        ...(hint === undefined ? {} : { hint }),
      });
    };
    for (const [form, apply] of FORMS) {
      const match = form.exec(text.trim());
      if (match === null) continue;
      apply(draft, match.slice(1), library, refuse);
      return;
    }
    refuse("<part> absent | insert <new> like <part> after <part>.<pin> | <part>.<rating> is <value> | pin X.1 is X.2");
  });
}

type Refuse = (expected: string, hint?: string) => undefined;
type Apply = (draft: Draft, words: readonly string[], library: Library, refuse: Refuse) => undefined;

const FORMS: readonly (readonly [RegExp, Apply])[] = [
  [/^(\S+) absent$/, absent],
  [/^insert (\S+) like (\S+) after ([^\s.]+)\.(\S+)$/, insert],
  [/^pin ([^\s.]+)\.(\S+) is ([^\s.]+)\.(\S+)$/, movePin],
  [/^([^\s.]+)\.(\S+) is (.+)$/, change],
];

function absent(draft: Draft, [id = ""]: readonly string[], _library: Library, refuse: Refuse): undefined {
  const part = partOf(draft, id, refuse);
  if (part === undefined) return;
  draft.parts.delete(id);
  draft.absent.add(id);
  if (part.instance.whenAbsent === "removed") return;
  for (const element of part.instance.elements) {
    const [from, to] = [part.pins.get(element.from), part.pins.get(element.to)];
    if (from !== undefined && to !== undefined) draft.sameWire.push([from, to]);
  }
}

function insert(
  draft: Draft,
  [id = "", like = "", at = "", pin = ""]: readonly string[],
  _: Library,
  refuse: Refuse,
): undefined {
  const model = partOf(draft, like, refuse);
  const neighbour = partOf(draft, at, refuse);
  if (model === undefined || neighbour === undefined) return;
  const wire = neighbour.pins.get(pin);
  if (wire === undefined) return refuse(`a pin of ${at}`, didYouMean(pin, neighbour.pins.keys()));
  if (draft.parts.has(id)) return refuse("a name that no part has yet");
  const [first, second, ...more] = model.pins.keys();
  if (first === undefined || second === undefined || more.length > 0) return refuse("a part of two pins to copy");
  const between = `${at}.${pin} to ${id}`;
  neighbour.pins.set(pin, between);
  const pins = new Map([
    [first, between],
    [second, wire],
  ]);
  draft.parts.set(id, { ...model, id, says: `${model.says} (${id})`, pins });
}

function change(
  draft: Draft,
  [id = "", key = "", value = ""]: readonly string[],
  library: Library,
  refuse: Refuse,
): undefined {
  const part = partOf(draft, id, refuse);
  if (part === undefined) return;
  const { tree, place, source } = part.cursor;
  if (tree.is !== "map" || key === "kind") return refuse("a rating, a wire or a share of a part");
  const text: Tree = {
    is: "text",
    text: withTolerance(value, library.kinds.get(part.instance.kind), key),
    line: tree.line,
  };
  const entries = new Map(tree.entries).set(key, { line: tree.line, value: text });
  const cursor = new Cursor({ ...tree, entries }, place, draft.issues, source);
  const changed = readPart(id, cursor, library);
  if (changed !== undefined) draft.parts.set(id, { ...changed, pins: key === "kind" ? part.pins : changed.pins });
}

/** A plate gives the nominal value: the kind's own tolerance still holds round it, unless another was written. */
function withTolerance(value: string, kind: Kind | undefined, rating: string): string {
  const asked = kind?.asks.get(rating);
  const plate = parseAmount(value);
  if (asked?.is !== "amount" || asked.otherwise?.spread !== "tolerance") return value;
  if (!plate.ok || plate.value.spread !== "exact") return value;
  const { nominal, lo, hi } = asked.otherwise;
  const percent = (limit: number): string => (100 * Math.abs(limit / nominal - 1)).toFixed(3);
  return `${value} +${percent(hi)}-${percent(lo)}%`;
}

function movePin(
  draft: Draft,
  [plugA = "", from = "", plugB = "", to = ""]: readonly string[],
  _: Library,
  refuse: Refuse,
): undefined {
  const plug = draft.plugs.get(plugA);
  if (plug === undefined) return refuse("a connector of this machine", didYouMean(plugA, draft.plugs.keys()));
  if (plugA !== plugB) return refuse("two pins of one connector");
  const moved = plug.pins.get(from);
  if (moved === undefined) return refuse(`a pin of ${plugA}`, didYouMean(from, plug.pins.keys()));
  const other = plug.pins.get(to);
  if (other === undefined) plug.pins.delete(from);
  else plug.pins.set(from, other);
  plug.pins.set(to, moved);
}

function partOf(draft: Draft, id: string, refuse: Refuse): DraftPart | undefined {
  const part = draft.parts.get(id);
  if (part === undefined) refuse("a part of this machine", didYouMean(id, draft.parts.keys()));
  return part;
}
