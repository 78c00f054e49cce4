import type { Meter, Quantity } from "../meter/index.ts";
import { MAINS_PLUG, tiedTo } from "../predict/index.ts";
import type { Shop } from "../remedy/index.ts";
import type { Cause, Machine, Part, Point } from "../sheet/index.ts";
import type { Board } from "./ground.ts";
import { instrumentFor } from "./instrument.ts";
import { branches, nearTo } from "./nearness.ts";
import type { PlanOptions } from "./plan.ts";
import type { WorkState } from "./work-state.ts";

/** Weight of paths to earth from which insulation and leakage are in question. */
const LEAK_IN_QUESTION = 0.03;
/** Weight of paths to earth from which they are what one looks for first: something tripped, or tingled. */
const LEAK_LIKELY = 0.25;
/** A connector is gone to for suspects of this weight. */
const NEAR_FROM = 0.015;
/** Suspects lighter than this are not gone to by themselves. */
const SUSPECT = 0.004;

/** Everything the offers are made from: the board, where the work stands, and who is suspected how much. */
export interface Scene {
  readonly board: Board;
  readonly machine: Machine;
  readonly state: WorkState;
  readonly shop: Shop;
  readonly options: PlanOptions;
  /** Parts and causes under suspicion with their weight, heaviest first. */
  readonly suspects: readonly Suspect[];
  /** A path to earth is believed enough to be measured for. */
  readonly leakInQuestion: boolean;
  /** It is what the job is about. */
  readonly leakLikely: boolean;
  readonly meter: (quantity: Quantity) => Meter;
  /** Nodes tied by wire to the live pole and to the neutral of the mains plug, plug out. */
  readonly poles: { readonly line: ReadonlySet<number>; readonly neutral: ReadonlySet<number> };
  /** Nodes within a few elements of a suspect worth going to. */
  readonly near: ReadonlySet<number>;
  /** Branch of each node of the machine; equal numbers are joined at rest. */
  readonly branch: Int32Array;
  /** A point of the likeliest machine that machines holding at least half of the belief have. */
  readonly point: (id: string) => Point | undefined;
}

export interface Suspect {
  readonly id: string;
  readonly p: number;
  /** Weight of hypotheses in which it comes and goes. */
  readonly fitful: number;
  /** Weight of hypotheses in which it has a path to earth. */
  readonly leaks: number;
  readonly part?: Part;
  readonly cause?: Cause;
  /** It has a bad look that eyes can find. */
  readonly visible: boolean;
  readonly hazards: readonly string[];
}

/** Sums the live hypotheses by what one would go to. */
export function sceneOf(board: Board, state: WorkState, shop: Shop, options: PlanOptions): Scene {
  const weights = board.live.weights;
  const found = new Map<
    string,
    { p: number; fitful: number; leaks: number; part?: Part; cause?: Cause; visible: boolean }
  >();
  let leaking = 0;
  board.live.hypotheses.forEach((h, i) => {
    const hypothesis = board.case.hypotheses[h];
    if (hypothesis === undefined) return;
    const machine = board.machineOf(i);
    const w = weights[i] as number;
    let leaks = false;
    hypothesis.modes.forEach((mode, m) => {
      const severity = mode.severities[hypothesis.severities[m] ?? 0];
      const leaksHere = severity?.effects.some((effect) => effect.does === "leak") ?? false;
      leaks ||= leaksHere;
      for (const [id, part, cause] of placesOf(machine, mode.part, mode.parts, mode.cause)) {
        const known = found.get(id) ?? { p: 0, fitful: 0, leaks: 0, visible: false };
        known.p += w;
        if (hypothesis.failsOn < 1) known.fitful += w;
        if (leaksHere) known.leaks += w;
        known.visible ||= mode.looks !== undefined || mode.seen !== undefined || cause?.look !== undefined;
        if (part !== undefined) known.part = part;
        if (cause !== undefined) known.cause = cause;
        found.set(id, known);
      }
    });
    if (leaks) leaking += w;
  });
  const suspects = [...found]
    .map(([id, one]) => ({ id, ...one, hazards: one.part?.instance.hazards ?? [] }))
    .filter((one) => one.p >= SUSPECT)
    .sort((a, b) => b.p - a.p || (a.id < b.id ? -1 : 1));
  const points = pointsInHalf(board);
  const { machine } = board;
  const pole = (pin: string): ReadonlySet<number> => {
    const node = machine.points.find((point) => point.id === `${MAINS_PLUG}.${pin}`)?.node;
    return node === undefined ? new Set() : tiedTo(machine, [node]);
  };
  const poles = { line: pole("L"), neutral: pole("N") };
  const worthGoing = suspects.filter((one) => one.p >= NEAR_FROM && one.part !== undefined).map((one) => one.id);
  const parts = machine.parts.flatMap((part, index) => (worthGoing.includes(part.id) ? [index] : []));
  return {
    board,
    machine,
    poles,
    branch: branches(machine),
    near: nearTo(machine, parts, new Set([...poles.line, ...poles.neutral])),
    state,
    shop,
    options,
    suspects,
    leakInQuestion: leaking >= LEAK_IN_QUESTION,
    leakLikely: leaking >= LEAK_LIKELY,
    meter: (quantity) => instrumentFor(quantity, shop.bag, options.meters),
    point: (id) => points.get(id),
  };
}

function placesOf(
  machine: Machine,
  part: number,
  parts: readonly number[],
  cause: number,
): (readonly [string, Part | undefined, Cause | undefined])[] {
  const theCause = cause >= 0 ? machine.causes[cause] : undefined;
  if (theCause !== undefined) return [[theCause.id, undefined, theCause]];
  return (parts.length > 0 ? parts : [part]).flatMap((index) => {
    const one = machine.parts[index];
    return one === undefined ? [] : [[one.id, one, undefined] as const];
  });
}

/** Points of the likeliest machine: nodes are counted anew in every machine, so that no other's can stand beside them. */
function pointsInHalf(board: Board): ReadonlyMap<string, Point> {
  const held = new Map<string, number>();
  const weightOf = new Map<Machine, number>();
  board.live.hypotheses.forEach((_, i) => {
    const machine = board.machineOf(i);
    weightOf.set(machine, (weightOf.get(machine) ?? 0) + (board.live.weights[i] as number));
  });
  for (const [machine, weight] of weightOf) {
    for (const { id } of machine.points) held.set(id, (held.get(id) ?? 0) + weight);
  }
  const common = board.machine.points.filter(({ id }) => (held.get(id) ?? 0) >= 0.5);
  return new Map(common.map((point) => [point.id, point]));
}

/** Access that a suspect lies behind. */
export function accessOfSuspect(suspect: Suspect): string | undefined {
  return suspect.part?.access ?? suspect.cause?.look?.access;
}
