import { LOADS, type Load, loadOf } from "./load.ts";
import type { Timeline } from "./timeline.ts";

/** Samples in a row that speak of one load; `unknown` is a hole. */
export interface Piece {
  readonly load: Load | "unknown";
  readonly from: number;
  readonly to: number;
  /** First and last sample, in the timeline. */
  readonly first: number;
  readonly last: number;
  /** Seconds in which that load was seen; the rest of the piece are its rests. */
  readonly onSeconds: number;
  readonly unknownSeconds: number;
  /** How often it rested between, holes apart. */
  readonly rests: number;
}

/** A hole no longer than this, with the same load on both sides, is taken as that load (our own choice): seconds. */
const BRIDGED = 120;
/** A motor that rests no longer than this between two turns goes on (a drum that reverses; our own choice): seconds. */
const REST = 60;

/** A heater that breaks off no longer than this drops out and goes on (our own choice): seconds. */
const DROP = 15;
/** What draws a heater's power for less than this is a motor that starts (a drum going into its spin; our own choice). */
const START = { samples: 2, seconds: 10 } as const;

/** Cuts a timeline into pieces of one load each: lone samples make none, short holes and short rests end none. */
export function piecesOf(timeline: Timeline): readonly Piece[] {
  const bridged = withHolesBridged(withoutStarts(barePieces(timeline)));
  const heated = withRestsJoined(bridged, "heater", DROP);
  return withRestsJoined(withRestsJoined(heated, "motor or pump", REST), "small load", REST);
}

function barePieces({ seconds, calm, holds, gaps }: Timeline): readonly Piece[] {
  const starts = new Map(gaps.map((gap) => [gap.to, gap]));
  const pieces: { -readonly [Key in keyof Piece]: Piece[Key] }[] = [];
  let last: Load | undefined;
  for (let at = 0; at < seconds.length; at++) {
    const gap = at === 0 ? undefined : starts.get(seconds[at]);
    if (gap !== undefined) {
      pieces.push({ load: "unknown", ...gap, ...noSamples(at), unknownSeconds: gap.to - gap.from });
    }
    const here = loadOf(calm[at]);
    // One sample alone between two others is a ramp or a flicker: it goes with the piece it leaves.
    const next = at + 1 < seconds.length && !starts.has(seconds[at + 1]) ? loadOf(calm[at + 1]) : undefined;
    const isLone = gap === undefined && last !== undefined && here !== last && next !== undefined && next !== here;
    const load = isLone && last !== undefined ? last : here;
    const on = Math.max(0, holds[at] - seconds[at]);
    const piece = pieces.at(-1);
    if (piece !== undefined && gap === undefined && piece.load === load) {
      piece.to = holds[at];
      piece.last = at;
      piece.onSeconds += on;
    } else {
      pieces.push({
        load,
        from: seconds[at],
        to: holds[at],
        first: at,
        last: at,
        onSeconds: on,
        unknownSeconds: 0,
        rests: 0,
      });
    }
    last = load;
  }
  return pieces;
}

function noSamples(next: number): Pick<Piece, "first" | "last" | "onSeconds" | "rests"> {
  return { first: next, last: next - 1, onSeconds: 0, rests: 0 };
}

function withoutStarts(pieces: readonly Piece[]): readonly Piece[] {
  const out: Piece[] = [];
  for (const piece of pieces) {
    const isHeater = piece.last - piece.first + 1 >= START.samples && piece.onSeconds >= START.seconds;
    const load = piece.load === "heater" && !isHeater ? "motor or pump" : piece.load;
    const before = out.at(-1);
    if (before !== undefined && load !== "unknown" && before.load === load && before.to === piece.from) {
      out[out.length - 1] = together(before, [], piece);
    } else out.push({ ...piece, load });
  }
  return out;
}

function withHolesBridged(pieces: readonly Piece[]): readonly Piece[] {
  return folded(pieces, (before, between, after) => {
    const isShort = between.load === "unknown" && between.unknownSeconds <= BRIDGED;
    return isShort && before.load === after.load;
  });
}

/** Rests of a load that comes and goes: what draws less, or is unknown, between two pieces of it. */
function withRestsJoined(pieces: readonly Piece[], load: Load, rest: number): readonly Piece[] {
  const lower: readonly Piece["load"][] = [...LOADS.slice(0, LOADS.indexOf(load)), "unknown"];
  const joined: Piece[] = [];
  for (const piece of pieces) {
    joined.push(piece);
    if (piece.load !== load) continue;
    let back = joined.length - 2;
    while (back >= 0 && lower.includes(joined[back].load)) back--;
    const before = joined[back];
    if (before?.load !== load || back === joined.length - 2 || piece.from - before.to > rest) continue;
    joined.splice(back, joined.length - back, together(before, joined.slice(back + 1, -1), piece));
  }
  return joined;
}

/** Joins three neighbours into one wherever the rule says so. */
function folded(
  pieces: readonly Piece[],
  joins: (before: Piece, between: Piece, after: Piece) => boolean,
): readonly Piece[] {
  const out: Piece[] = [];
  for (const piece of pieces) {
    const between = out.at(-1);
    const before = out.at(-2);
    if (between !== undefined && before !== undefined && joins(before, between, piece)) {
      out.splice(-2, 2, together(before, [between], piece));
    } else out.push(piece);
  }
  return out;
}

function together(before: Piece, between: readonly Piece[], after: Piece): Piece {
  const unknown = between.reduce((sum, piece) => sum + piece.unknownSeconds, 0);
  return {
    load: before.load,
    from: before.from,
    to: after.to,
    first: before.first,
    last: after.last,
    onSeconds: before.onSeconds + after.onSeconds,
    unknownSeconds: before.unknownSeconds + unknown + after.unknownSeconds,
    rests: before.rests + after.rests + (between.some(({ load }) => load !== "unknown") ? 1 : 0),
  };
}
