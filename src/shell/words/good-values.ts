import type { Quantity } from "../../core/meter/index.ts";
import { openAtRest, type Predictor, type Probe, type UsualProbe, usualProbes } from "../../core/predict/index.ts";
import type { Machine } from "../../core/sheet/index.ts";
import { together } from "./list.ts";
import { reachInWords, reachOf } from "./reading.ts";
import type { Reach } from "./scale.ts";
import { width, wrap } from "./wrap.ts";

/** One reading of a good machine. */
export interface GoodValue {
  readonly usual: UsualProbe;
  readonly reach: Reach;
  /** Contact that is open at rest in a good machine, where that is why it shows OL. */
  readonly openAtRest?: string;
}

/** A good meter's input; readings through it are what most technicians see. */
const inputOhms = 1e7;

/** Every usual reading of a machine, and what a good one shows there. */
export function goodValuesOf(predictor: Predictor): GoodValue[] {
  return usualProbes(predictor.machine).map((usual): GoodValue => {
    const reach = reachOf(predictor.shows(usual.probe, inputOhms, []));
    const dead = usual.probe.quantity === "ohms" && usual.probe.state.kind === "dead";
    const contact = dead && reach === "open" ? openAtRest(predictor, usual.probe)?.says : undefined;
    return { usual, reach, ...(contact === undefined ? {} : { openAtRest: contact }) };
  });
}

/** Room for the points before what is read there. */
const labelWidth = 46;
/** Volts below this say only that nothing is switched. */
const leastVolts = 0.5;

/** What a good machine shows at one place. */
export interface PlaceValues {
  readonly place: string;
  readonly groups: readonly ValueGroup[];
}

/** Readings of one place in one state of the machine. */
export interface ValueGroup {
  readonly state?: string;
  readonly rows: readonly { readonly label: string; readonly value: string }[];
  /** How many more say nothing, and what they say. */
  readonly folded?: string;
}

/** `goodValues` as lines for a terminal. */
export function goodValuesInWords(machine: Machine, values: readonly GoodValue[], all: boolean): string[] {
  return goodValues(machine, values, all).flatMap(({ place, groups }) => [
    "",
    ...wrap(place, width, "", "  "),
    ...groups.flatMap(({ state, rows, folded }) => [
      ...(state === undefined ? [] : [`  ${state}`]),
      ...rows.flatMap(({ label, value }) => line(label, value)),
      ...(folded === undefined ? [] : [`    ${folded}`]),
    ]),
  ]);
}

/**
 * What a good machine shows, place by place: dead first, then live; pairs that read alike on one line. What says nothing
 * (no path where none should be, no volts in any step) is counted, and told with `all`.
 */
export function goodValues(machine: Machine, values: readonly GoodValue[], all: boolean): PlaceValues[] {
  const places = new Map<string, GoodValue[]>();
  for (const value of inOrderOfHands(machine, values)) {
    const place = placeOf(machine, value.usual);
    places.set(place, [...(places.get(place) ?? []), value]);
  }
  return [...places].flatMap(([place, here]) => {
    const groups = [...deadValues(machine, here, all), ...liveValues(machine, here, all)];
    return groups.length === 0 ? [] : [{ place, groups }];
  });
}

/** Nothing opened first, then cover by cover: connectors by their numbers, then parts; the machine as a whole last. */
function inOrderOfHands(machine: Machine, values: readonly GoodValue[]): GoodValue[] {
  const rank = ({ usual: { at, access, probe } }: GoodValue): readonly [number, number] => {
    if (probe.measure !== undefined) return [machine.access.length, 0];
    const cover = machine.access.findIndex(({ id }) => id === access);
    if (at === undefined || "part" in at) return [cover, at === undefined ? -1 : Number.POSITIVE_INFINITY];
    return [cover, Number(/\d+/.exec(at.plug.id)?.[0] ?? 0)];
  };
  return values
    .map((value) => ({ value, rank: rank(value) }))
    .sort((a, b) => a.rank[0] - b.rank[0] || (a.rank[1] === b.rank[1] ? 0 : a.rank[1] - b.rank[1]))
    .map(({ value }) => value);
}

function placeOf(machine: Machine, { at, access, probe }: UsualProbe): string {
  if (probe.measure !== undefined) return "Of the machine as a whole";
  const cover = machine.access.find(({ id }) => id === access);
  const behind = cover === undefined ? "" : ` (${cover.says})`;
  if (at === undefined) return "Mains plug, nothing opened";
  if ("part" in at) return `Parts at their terminals, plug out, in circuit${behind}`;
  const { id, ways, pinOneSays } = at.plug;
  return `connector ${id}, ${ways} ways, pin 1 ${pinOneSays}${behind}`;
}

/** A line to print, or a reading that says nothing of interest. */
interface Row {
  /** Rows of one thing that read alike are told together. */
  readonly of: string;
  readonly label: string;
  readonly value: string;
  readonly trivial: boolean;
}

function deadValues(machine: Machine, here: readonly GoodValue[], all: boolean): ValueGroup[] {
  const dead = here.filter(({ usual }) => usual.probe.state.kind !== "live");
  const [first] = dead;
  if (first === undefined) return [];
  const rows = byValue(
    dead.map(({ usual, reach, openAtRest }): Row => {
      const own = usual.at !== undefined && "part" in usual.at && usual.at.part.says === openAtRest;
      const rest = openAtRest === undefined ? "" : `: at rest ${own ? "it" : openAtRest} is open`;
      return {
        of: usual.at !== undefined && "part" in usual.at ? usual.at.part.id : "",
        label: labelOf(machine, usual.probe),
        value: reachInWords(reach, usual.probe.quantity, 2) + rest,
        trivial: reach === "open" && openAtRest === undefined && usual.at !== undefined,
      };
    }),
  );
  const { at, probe } = first.usual;
  const state = at === undefined ? "plug out" : "plug" in at ? "plug out, pulled, on the side of its wires" : undefined;
  // OL and nothing else is what there is to know of a place.
  const told = all || rows.every(({ trivial }) => trivial) ? rows : rows.filter(({ trivial }) => !trivial);
  const folded = all ? 0 : dead.length - countOf(told);
  return [
    {
      ...(state === undefined || probe.measure !== undefined ? {} : { state }),
      rows: told,
      ...(folded > 0 ? { folded: `${folded} more pair${folded === 1 ? "" : "s"}: OL, no path` } : {}),
    },
  ];
}

function liveValues(machine: Machine, here: readonly GoodValue[], all: boolean): ValueGroup[] {
  const live = here.filter(({ usual }) => usual.probe.state.kind === "live");
  const [first] = live;
  if (first === undefined) return [];
  const pairs = new Map<string, GoodValue[]>();
  for (const value of live) {
    const label = labelOf(machine, value.usual.probe);
    pairs.set(label, [...(pairs.get(label) ?? []), value]);
  }
  const rows = byValue(
    [...pairs].map(
      ([label, steps]): Row => ({
        of: "",
        label,
        value: byStep(steps),
        trivial: steps.every(({ usual, reach }) => usual.probe.quantity === "volts" && isNothing(reach)),
      }),
    ),
  );
  const told = all ? rows : rows.filter(({ trivial }) => !trivial);
  const folded = pairs.size - countOf(told);
  if (told.length === 0 && folded === 0) return [];
  const manner = first.usual.at === undefined ? "plug meter or clamp" : `volts, ${first.usual.class}`;
  const nothing = `${folded} ${told.length === 0 ? "" : "more "}pair${folded === 1 ? "" : "s"}: 0 V AC in every step`;
  return [{ state: `LIVE, ${manner}`, rows: told, ...(folded > 0 ? { folded: nothing } : {}) }];
}

function isNothing(reach: Reach): boolean {
  return reach !== "open" && reach.hi < leastVolts;
}

/** "220 – 240 V in turn, heat and cool; else 0 V". */
function byStep(steps: readonly GoodValue[]): string {
  const told = new Map<string, string[]>();
  for (const { usual, reach } of steps) {
    const value =
      isNothing(reach) && usual.probe.quantity === "volts" ? "0 V" : reachInWords(reach, usual.probe.quantity, 2);
    told.set(value, [...(told.get(value) ?? []), stepOf(usual.probe)]);
  }
  if (told.size === 1) return `${[...told.keys()][0]} in every step`;
  const nothing = told.delete("0 V") ? "; else 0 V" : "";
  return [...told].map(([value, names]) => `${value} in ${together(names)}`).join("; ") + nothing;
}

function stepOf({ state }: Probe): string {
  return state.kind === "live" ? (state.step ?? state.condition ?? "") : "";
}

/** Rows that read alike become one, in the order in which they were met. */
function byValue(rows: readonly Row[]): Row[] {
  const told = new Map<string, Row>();
  for (const row of rows) {
    const alike = `${row.of} ${row.trivial} ${row.value}`;
    const before = told.get(alike);
    told.set(alike, { ...row, label: before === undefined ? row.label : `${before.label}; ${row.label}` });
  }
  return [...told.values()];
}

function countOf(rows: readonly Row[]): number {
  return rows.reduce((sum, { label }) => sum + label.split("; ").length, 0);
}

function line(label: string, value: string): string[] {
  const labels = wrap(label, labelWidth, "", "  ");
  const values = wrap(value, width - labelWidth - 6);
  return Array.from({ length: Math.max(labels.length, values.length) }, (_, n) =>
    `    ${(labels[n] ?? "").padEnd(labelWidth)}  ${values[n] ?? ""}`.trimEnd(),
  );
}

/** "1 red – 3 blue" at a connector, "heater.s1 – heater.common" at a part, "watts". */
export function labelOf(machine: Machine, probe: Probe): string {
  if (probe.measure !== undefined) {
    const cause = machine.causes.find(({ id }) => id === probe.measure?.cause);
    return cause?.measures.find(({ id }) => id === probe.measure?.id)?.says ?? probe.measure.id;
  }
  if (probe.from === undefined) return atThePlug(probe.quantity);
  const from = [probe.from, ...(probe.joinedWith ?? [])].map((id) => pointOf(machine, id)).join(" + ");
  const what = probe.quantity === "insulation ohms" ? "insulation, " : "";
  return `${what}${from} – ${pointOf(machine, probe.to ?? "")}`;
}

function atThePlug(quantity: Quantity): string {
  return quantity === "leakage amps" ? "leakage" : quantity;
}

/** "X3.1 red", "heater.s1". */
function pointOf(machine: Machine, id: string): string {
  const point = machine.points.find((one) => one.id === id);
  return point?.plug === undefined || point.colour === undefined ? id : `${id} ${point.colour}`;
}
