import type { OutcomeTable } from "../suspect/index.ts";
import type { Cell } from "./cells.ts";
import type { Board } from "./ground.ts";
import type { OfferQuestion } from "./offer.ts";
import type { Band, PlanQuestion, StepOutcome } from "./plan.ts";
import type { Valued } from "./valued.ts";
import type { Next } from "./what-next.ts";

/** Bands drawn on one scale, faults named on one band. */
const MOST_BANDS = 5;
const MOST_FAULTS = 4;
/** Hypotheses whose prediction shapes one band. */
const SHAPING = 24;
/** A band reaches this many standard deviations to both sides. */
const REACH = 2;
/** Bands and outcomes lighter than this are folded. */
const FOLD = 0.01;

/** What a question of a step would show under the faults that are still possible. */
export function questionOf(board: Board, question: OfferQuestion, table: OutcomeTable | undefined): PlanQuestion {
  const bands = table === undefined ? [] : bandsOf(board, question, table);
  const held = bands.reduce((sum, band) => sum + band.p, 0);
  return {
    says: question.says,
    observation: question.observation,
    bands,
    others: Math.max(0, 1 - held),
    ...(question.probe === undefined ? {} : { probe: question.probe }),
    ...(question.meter === undefined ? {} : { meter: question.meter }),
    ...(question.from === undefined ? {} : { from: question.from }),
    ...(question.to === undefined ? {} : { to: question.to }),
  };
}

function bandsOf(board: Board, question: OfferQuestion, table: OutcomeTable): Band[] {
  const weights = board.live.weights;
  const members: number[][] = table.outcomes.map(() => []);
  for (let i = 0; i < weights.length; i++) {
    let best = 0;
    for (let o = 1; o < table.chance.length; o++) {
      if (((table.chance[o] as Float64Array)[i] as number) > ((table.chance[best] as Float64Array)[i] as number))
        best = o;
    }
    members[best]?.push(i);
  }
  const bands = table.outcomes.map((outcome, o) => {
    const inside = (members[o] ?? []).sort((a, b) => (weights[b] as number) - (weights[a] as number) || a - b);
    const p = inside.reduce((sum, i) => sum + (weights[i] as number), 0);
    const reach =
      question.observation.kind === "reading"
        ? reachOf(board, question, inside.slice(0, SHAPING), outcome)
        : { word: outcome.says };
    return { p, reach, faults: faultsOf(board, inside) };
  });
  return bands
    .filter((band) => band.p >= FOLD)
    .sort((a, b) => b.p - a.p)
    .slice(0, MOST_BANDS);
}

function reachOf(
  board: Board,
  question: OfferQuestion,
  inside: readonly number[],
  outcome: OutcomeTable["outcomes"][number],
): Band["reach"] {
  if (outcome.overLimit === true) return "open";
  let lo = Number.POSITIVE_INFINITY;
  let hi = Number.NEGATIVE_INFINITY;
  for (const i of inside) {
    const prediction = board.case.prediction(board.live.hypotheses[i] as number, question.observation);
    for (const term of prediction?.terms ?? []) {
      if (term.kind !== "value" || term.weight < 0.2) continue;
      if (
        term.mean < (outcome.from ?? Number.NEGATIVE_INFINITY) ||
        term.mean > (outcome.to ?? Number.POSITIVE_INFINITY)
      )
        continue;
      lo = Math.min(lo, term.mean - REACH * term.sigma);
      hi = Math.max(hi, term.mean + REACH * term.sigma);
    }
  }
  if (lo > hi) return { lo: outcome.from ?? 0, hi: outcome.to ?? outcome.from ?? 0 };
  return { lo: Math.max(lo, Math.min(0, lo + hi)), hi };
}

function faultsOf(board: Board, inside: readonly number[]): Band["faults"] {
  const byPlace = new Map<string, { readonly says: string; p: number }>();
  for (const i of inside) {
    const target = board.ground.targetOf[i] as number;
    const id = targetId(board, target);
    const place = byPlace.get(id) ?? { says: targetSays(board, target), p: 0 };
    place.p += board.live.weights[i] as number;
    byPlace.set(id, place);
  }
  return [...byPlace]
    .map(([id, place]) => ({ id, ...place }))
    .sort((a, b) => b.p - a.p || (a.id < b.id ? -1 : 1))
    .slice(0, MOST_FAULTS);
}

/**
 * What each joint outcome of a step would lead to, likeliest first; rare ones folded.
 *
 * @param next      what comes next after an outcome
 * @param remedies  what is done by each remedy that `next` may name
 */
export function outcomesOf(
  board: Board,
  valued: Valued,
  order: readonly number[],
  next: (cell: Cell) => Next,
  remedies: readonly string[],
): StepOutcome[] {
  return [...valued.cells]
    .filter(({ chance }) => chance >= FOLD)
    .sort((a, b) => b.chance - a.chance)
    .map((cell) => ({
      found: foundIn(valued, cell, order),
      chance: cell.chance,
      parts: partsOf(board, cell).slice(0, MOST_FAULTS),
      leadsTo: leadOf(next(cell)),
    }));

  function leadOf(lead: Next): StepOutcome["leadsTo"] {
    if (lead.do === "stop") return { do: "stop", says: "stop" };
    if ("remedy" in lead) return { do: "mend", says: remedies[lead.remedy] ?? "" };
    const says = targetSays(board, lead.target);
    return { do: lead.do, says: lead.do === "mend" ? `mend: ${says}` : says };
  }
}

/** How each question came out, in the order in which the step asks them; nothing where rare outcomes were taken together. */
function foundIn(valued: Valued, cell: Cell, order: readonly number[]): StepOutcome["found"] {
  if (cell.path.some((o) => o < 0)) return [];
  return order.map((n, question) => {
    const { says = "", from, to } = valued.tables[n]?.outcomes[cell.path[n]] ?? {};
    return { question, says, ...(from === undefined || to === undefined ? {} : { reach: { lo: from, hi: to } }) };
  });
}

function partsOf(board: Board, cell: Cell): StepOutcome["parts"] {
  const held = placeWeights(board, cell.weights);
  return [...held]
    .map(([target, w]) => ({ id: targetId(board, target), says: targetSays(board, target), p: w / cell.chance }))
    .filter((part) => part.p >= FOLD)
    .sort((a, b) => b.p - a.p || (a.id < b.id ? -1 : 1));
}

/**
 * What a step settles, in one clause: the two places whose odds its likeliest outcomes move most, in opposite ways.
 */
export function settles(board: Board, valued: Valued): string {
  const before = placeWeights(board, board.live.weights);
  const named: number[] = [];
  for (const cell of [...valued.cells].sort((a, b) => b.chance - a.chance)) {
    if (cell.path.some((o) => o < 0)) continue;
    let best = -1;
    let rise = 0.02;
    for (const [target, w] of placeWeights(board, cell.weights)) {
      const up = w / cell.chance - (before.get(target) ?? 0);
      if (up > rise) {
        best = target;
        rise = up;
      }
    }
    if (best >= 0 && !named.includes(best)) named.push(best);
    if (named.length === 2) break;
  }
  // What is likelier now is what one has in mind.
  named.sort((a, b) => (before.get(b) ?? 0) - (before.get(a) ?? 0));
  const [first, second] = named.map((target) => targetSays(board, target));
  if (first === undefined) return "makes sure";
  return second === undefined ? `says whether it is ${first}` : `tells ${first} from ${second}`;
}

/** Targets with their weight; what comes and goes at a place is told with the place. */
function placeWeights(board: Board, weights: Float64Array): Map<number, number> {
  const first = new Map<string, number>();
  const held = new Map<number, number>();
  for (let i = 0; i < weights.length; i++) {
    const w = weights[i] as number;
    if (w === 0) continue;
    const target = board.ground.targetOf[i] as number;
    const id = targetId(board, target);
    const at = first.get(id) ?? target;
    first.set(id, at);
    held.set(at, (held.get(at) ?? 0) + w);
  }
  return held;
}

function targetId(board: Board, target: number): string {
  return board.ground.targets[target]?.id ?? "";
}

function targetSays(board: Board, target: number): string {
  return board.ground.targets[target]?.says ?? "";
}
