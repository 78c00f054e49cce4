import { parse } from "yaml";
import type { Random } from "../../src/core/chance/index.ts";
import { NUMBERS, oneOf, TEXTS, UNITS } from "./odd-values.ts";

/** Written as it stands, without quotes: what no value of a tree can hold (NaN, 1e400, an alias). */
const raw = (text: string): string => `\u0001${text}\u0001`;
const RAW = /"\\u0001(.*?)\\u0001"/g;

type Box = unknown[] | { [key: string]: unknown };

/** One place in a tree: the box that holds it, and its key there. */
interface Spot {
  readonly box: Box;
  readonly key: string | number;
}

type TreeMutation = (spot: Spot, spots: readonly Spot[], random: Random) => void;

const trees = new Map<string, unknown>();

/** The text with one thing done to its structure, written as JSON (which YAML reads too); `undefined` if it is no tree. */
export function mutateTree(text: string, random: Random): { readonly text: string; readonly how: string } | undefined {
  if (!trees.has(text)) trees.set(text, treeOf(text));
  const tree = structuredClone(trees.get(text));
  const spots = spotsOf(tree);
  const spot = oneOf(spots, random);
  if (spot === undefined) return undefined;
  const change = oneOf(MUTATIONS, random) ?? drop;
  change(spot, spots, random);
  const written = JSON.stringify(tree, null, 1).replace(RAW, (_, token: string) => JSON.parse(`"${token}"`));
  return { text: written, how: `${change.name} at ${String(spot.key).slice(0, 40)}` };
}

function treeOf(text: string): unknown {
  try {
    return parse(text) as unknown;
  } catch {
    return undefined;
  }
}

function isBox(value: unknown): value is Box {
  return typeof value === "object" && value !== null;
}

function spotsOf(tree: unknown): Spot[] {
  const spots: Spot[] = [];
  const walk = (box: Box): void => {
    const keys = Array.isArray(box) ? box.map((_, n) => n) : Object.keys(box);
    for (const key of keys) {
      const spot = { box, key };
      spots.push(spot);
      const value = valueAt(spot);
      if (isBox(value)) walk(value);
    }
  };
  if (isBox(tree)) walk(tree);
  return spots;
}

function valueAt({ box, key }: Spot): unknown {
  return (box as { [key: string | number]: unknown })[key];
}

function put({ box, key }: Spot, value: unknown): void {
  Object.defineProperty(box, key, { value, enumerable: true, configurable: true, writable: true });
}

function drop({ box, key }: Spot): void {
  if (Array.isArray(box)) box.splice(Number(key), 1);
  else delete box[key];
}

function double(spot: Spot, spots: readonly Spot[], random: Random): void {
  const value = structuredClone(valueAt(spot));
  if (Array.isArray(spot.box)) spot.box.splice(Number(spot.key), 0, value);
  else put({ box: spot.box, key: String(oneOf(spots, random)?.key ?? "again") }, value);
}

function swap(spot: Spot, spots: readonly Spot[], random: Random): void {
  const other = oneOf(spots, random) ?? spot;
  const [here, there] = [structuredClone(valueAt(spot)), structuredClone(valueAt(other))];
  put(spot, there);
  put(other, here);
}

function otherType(spot: Spot, _: readonly Spot[], random: Random): void {
  const value = valueAt(spot);
  put(spot, oneOf([null, true, [], {}, [value], { a: value }, String(value), 0, "", [[]], { "": 1 }], random));
}

function otherNumber(spot: Spot, spots: readonly Spot[], random: Random): void {
  const numbers = spots.filter((one) => typeof valueAt(one) === "number");
  const at = numbers.length > 0 ? (oneOf(numbers, random) ?? spot) : spot;
  const value = Number(valueAt(at));
  const near = [0, -value, value * 1e9, value / 1e9, value + 1e-7, 1 - value, 2 ** 53, 1e-300].map(String);
  put(at, raw(oneOf([...NUMBERS, ...near], random) ?? "0"));
}

/** A number that is as good as the one before: most mutants with it are taken. */
function likeNumber(spot: Spot, spots: readonly Spot[], random: Random): void {
  const holding = spots.filter((one) => !isBox(valueAt(one)) && /\d/.test(String(valueAt(one))));
  const at = oneOf(holding, random) ?? spot;
  const value = valueAt(at);
  const factor = 0.5 + 1.5 * random.uniform();
  if (typeof value === "number") put(at, Number((value * factor).toPrecision(3)));
  else
    put(
      at,
      String(value).replace(/\d+(\.\d+)?/, (text) => String(Number((Number(text) * factor).toPrecision(2)))),
    );
}

function otherUnit(spot: Spot, spots: readonly Spot[], random: Random): void {
  const amounts = spots.filter((one) => /^[-\d.]+ ?[^\d\s]/.test(String(valueAt(one))));
  const at = oneOf(amounts, random) ?? spot;
  put(at, String(valueAt(at)).replace(/(?<=^[-\d.]+) ?[^\d]+.*$/, ` ${oneOf(UNITS, random) ?? "V"}`));
}

function otherText(spot: Spot, _: readonly Spot[], random: Random): void {
  put(spot, oneOf(TEXTS, random));
}

/** Something of this file where another stood: the wrong name, a circle of what waits for what. */
function fromElsewhere(spot: Spot, spots: readonly Spot[], random: Random): void {
  const kind = typeof valueAt(spot);
  const like = spots.filter((one) => typeof valueAt(one) === kind);
  const other = oneOf(like, random) ?? spot;
  put(spot, random.uniform() < 0.2 ? String(other.key) : structuredClone(valueAt(other)));
}

function nameOfKey(spot: Spot, spots: readonly Spot[], random: Random): void {
  put(spot, String(oneOf(spots, random)?.key ?? "x"));
}

function otherKey(spot: Spot, spots: readonly Spot[], random: Random): void {
  if (Array.isArray(spot.box)) return;
  const value = valueAt(spot);
  delete spot.box[spot.key];
  put({ box: spot.box, key: oneOf([...TEXTS.slice(1), String(oneOf(spots, random)?.key)], random) ?? "" }, value);
}

function nest(spot: Spot, _: readonly Spot[], random: Random): void {
  const depth = oneOf([3, 30, 300, 3000], random) ?? 3;
  const [open, close] = random.uniform() < 0.5 ? ["[", "]"] : ['{"a":', "}"];
  put(spot, raw(open.repeat(depth) + JSON.stringify("x") + close.repeat(depth)));
}

function aliasBomb(spot: Spot): void {
  const ten = (what: string): string => Array.from({ length: 10 }, () => what).join(", ");
  const levels = [`&a0 [${ten("x")}]`, ...Array.from({ length: 8 }, (_, n) => `&a${n + 1} [${ten(`*a${n}`)}]`)];
  put(spot, raw(`[${levels.join(", ")}]`));
}

function aliasOfItself(spot: Spot): void {
  put(spot, raw("&me [*me, {a: *me}]"));
}

function lengthen(spot: Spot): void {
  const value = valueAt(spot);
  if (Array.isArray(value))
    put(
      spot,
      Array.from({ length: 300 }, (_, n) => value[n % Math.max(1, value.length)]),
    );
  else if (isBox(value))
    for (let n = 0; n < 300; n++) put({ box: value, key: `more-${n}` }, Object.values(value)[0] ?? n);
}

const MUTATIONS: readonly TreeMutation[] = [
  drop,
  drop,
  double,
  swap,
  otherType,
  otherNumber,
  otherNumber,
  likeNumber,
  likeNumber,
  likeNumber,
  likeNumber,
  otherUnit,
  otherText,
  fromElsewhere,
  fromElsewhere,
  nameOfKey,
  otherKey,
  nest,
  aliasBomb,
  aliasOfItself,
  lengthen,
];
