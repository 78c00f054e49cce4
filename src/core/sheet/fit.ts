import type { KindInstance } from "../part/index.ts";
import { type Build, fixedValue, leakPlaces } from "./build.ts";
import type { Draft, DraftPart, DraftPlug } from "./draft.ts";
import { type JointKinds, shareJointRows } from "./joints.ts";
import type { Part, Plug, Point } from "./machine.ts";
import type { Wiring } from "./wiring.ts";
import type { Wording } from "./wording.ts";

/** Where every part, joint and probe point of a machine sits. */
export interface Fitted {
  readonly points: Point[];
  readonly pointIndex: ReadonlyMap<string, number>;
  readonly plugs: Plug[];
}

/**
 * Puts the parts of a draft on nodes: each pin behind a joint of its class, each plug pin a joint between wire side
 * and inside, each named so that a technician finds it. Elements get their nodes here, their values later.
 */
export function fitParts(
  draft: Draft,
  wiring: Wiring,
  wording: Wording,
  joints: JointKinds,
  build: Build,
  accessOf: (owner: string | undefined) => string | undefined,
): Fitted {
  const points: Point[] = [];
  const waiting: (() => void)[] = [];
  for (const part of draft.parts.values()) {
    const pins = new Map<string, number>();
    const access = part.access ?? accessOf(part.of);
    for (const [pin, className] of part.instance.pins) {
      const wire = part.pins.get(pin);
      if (wire === undefined) continue;
      const outer = wiring.at(part, wire);
      const node = className === "none" ? outer : wiring.node(`${part.id}.${pin}`);
      pins.set(pin, node);
      if (canBeProbed(part, className)) points.push(pointOfPin(part, pin, node, wording, access));
      const kind = className === "none" ? undefined : joints.of(className, part.cursor);
      if (kind === undefined) continue;
      const jointPart = { part: part.id, pin, class: className };
      const says = wording.jointOfPart(part, pin);
      const joint = { id: `joint ${part.id}.${pin}`, says, kind, joint: jointPart, access, of: part.of };
      waiting.push(() => addJoint(build, joint, outer, node));
    }
    addPart(build, partOf(part, pins, wording, access), wiring);
  }
  const plugs = [...draft.plugs.values()].map((plug) => {
    const elements: number[] = [];
    const pins: { pin: string; colour?: string; point: number }[] = [];
    for (const [name, pin] of plug.pins) {
      const outside = wiring.outside(pin.wire);
      const inside = wiring.inside(pin.inside, plug.of);
      const common = { plug: plug.id, pin: name, ...colour(pin.colour), ...accessed(plug.access), live: plug.live };
      const id = `${plug.id}.${name}`;
      const point = points.push({ id, node: outside, says: wording.pin(plug, name, pin), ...common }) - 1;
      points.push({ id: `${id} inside`, node: inside, says: wording.pinInside(plug, name, pin), ...common });
      pins.push({ pin: name, ...colour(pin.colour), point });
      const kind = joints.of(plug.joint, plug.cursor);
      if (kind === undefined) continue;
      const says = wording.jointOfPlug(plug, name, pin);
      const joint = { plug: plug.id, pin: name, class: plug.joint };
      waiting.push(() => {
        elements.push(
          ...addJoint(
            build,
            { id: `joint ${id}`, says, kind, joint, access: plug.access, of: undefined },
            outside,
            inside,
          ),
        );
      });
    }
    return plugOf(plug, elements, pins);
  });
  for (const add of waiting) add();
  shareJointRows(build.parts, draft.jointRows);
  const pointIndex = new Map(points.map(({ id }, index) => [id, index]));
  return { points, pointIndex, plugs };
}

interface Joint {
  readonly id: string;
  readonly says: string;
  readonly kind: KindInstance;
  readonly joint: NonNullable<Part["joint"]>;
  readonly access: string | undefined;
  readonly of: string | undefined;
}

function addJoint(build: Build, { id, says, kind, joint, access, of }: Joint, a: number, b: number): readonly number[] {
  const pins = new Map([
    ["a", a],
    ["b", b],
  ]);
  const source = kind.source === undefined ? {} : { shareSource: kind.source };
  const part = { id, says, instance: kind, pins, share: kind.share, joint, ...source, ...accessed(access) };
  return addPart(build, of === undefined ? part : { ...part, of }).elements;
}

type BarePart = Omit<Part, "elements" | "stateSets" | "knobs">;

function partOf(
  part: DraftPart,
  pins: ReadonlyMap<string, number>,
  wording: Wording,
  access: string | undefined,
): BarePart {
  return {
    id: part.id,
    says: wording.part(part.id),
    instance: part.instance,
    pins,
    share: part.share,
    ...accessed(access),
    ...(part.byHand.size === 0 ? {} : { byHand: part.byHand }),
    ...(part.of === undefined ? {} : { of: part.of }),
    ...(part.shareSource === undefined ? {} : { shareSource: part.shareSource }),
  };
}

/** Adds a part with its parameters, knobs, state sets (moves still to be compiled) and elements (values likewise). */
function addPart(build: Build, bare: BarePart, wiring?: Wiring): Part {
  const { instance } = bare;
  const index = build.parts.length;
  for (const [name, rated] of instance.ratings) build.parameter(`${bare.id}.${name}`, rated);
  const knobs = new Map<string, number>();
  for (const [knob, initial] of instance.knobs) {
    const isOutput = knob === OUTPUT_KNOB;
    knobs.set(knob, build.variable(isOutput ? bare.id : `${bare.id}.${knob}`, isOutput ? "output" : "knob", initial));
  }
  const stateSets = instance.stateSets.map(({ name, states, keeps }) => {
    return build.stateSets.push({ part: index, name, states, keeps, moves: [] }) - 1;
  });
  const node = (place: string): number => {
    const pin = bare.pins.get(place);
    if (pin !== undefined) return pin;
    if (wiring === undefined) throw new Error(`joint kind ${instance.kind} has an inner point ${place}`);
    return wiring.node(`${bare.id}:${place}`);
  };
  const elements: number[] = [];
  const add = (name: string, element: Omit<Build["elements"][number], "id" | "part">): void => {
    const id = `${bare.id}.${name}`;
    elements.push(build.elements.push({ id, part: index, ...element }) - 1);
    build.elementIndex.set(id, build.elements.length - 1);
  };
  for (const rule of instance.elements) {
    const set = "byState" in rule.value ? setOf(instance, stateSets, [...rule.value.byState.keys()]) : -1;
    const phase = rule.degrees === undefined ? {} : { degrees: rule.degrees };
    add(rule.name, { what: rule.what, a: node(rule.from), b: node(rule.to), set, values: [], ...phase });
  }
  for (const { from, to } of leakPlaces(instance)) {
    const open = [fixedValue(Number.POSITIVE_INFINITY)];
    add(`leak ${from}-${to}`, { what: "leak", a: node(from), b: node(to), set: -1, values: open });
  }
  const part: Part = { ...bare, elements, stateSets, knobs };
  build.parts.push(part);
  build.partIndex.set(bare.id, index);
  return part;
}

/** The knob by which a programme step drives a part. */
const OUTPUT_KNOB = "drive";

/** The state set that holds the named states. */
function setOf(instance: KindInstance, sets: readonly number[], states: readonly string[]): number {
  const local = instance.stateSets.findIndex((set) => states.every((state) => set.states.includes(state)));
  return sets[local] ?? -1;
}

/**
 * Inside an assembly only what has a joint of its own and a way to reach it; inside the house nothing. A part's line
 * may say otherwise (`points: yes`).
 */
function canBeProbed(part: DraftPart, joint: string): boolean {
  return part.points ?? (part.of === undefined || (part.access !== undefined && joint !== "none"));
}

function pointOfPin(part: DraftPart, pin: string, node: number, wording: Wording, access: string | undefined): Point {
  return { id: `${part.id}.${pin}`, node, says: wording.tab(part, pin), live: part.live, ...accessed(access) };
}

function plugOf(plug: DraftPlug, elements: readonly number[], pins: Plug["pins"]): Plug {
  const { id, of, ways, pinOneSays } = plug;
  return { id, of, ways, pinOneSays, ...accessed(plug.access), elements, pins };
}

function accessed(access: string | undefined): { readonly access?: string } {
  return access === undefined ? {} : { access };
}

function colour(name: string | undefined): { readonly colour?: string } {
  return name === undefined ? {} : { colour: name };
}
