import type { Pieces } from "../pace/index.ts";
import { priceOf, type Shop } from "../remedy/index.ts";
import type { OutcomeTable } from "../suspect/index.ts";
import type { Board } from "./ground.ts";
import { minutesFor, type Offer, type OfferQuestion } from "./offer.ts";
import { accessChain, readyCost, type SetUp, setUpFor } from "./set-up.ts";
import type { WorkState } from "./work-state.ts";

/** An offer that can be set up, with what each of its questions may turn out to show. */
export interface Surveyed {
  readonly offer: Offer;
  readonly setUp: SetUp;
  /** Money of set-up, of closing later, and of the step itself, questions apart. */
  readonly fixed: number;
  /** Share of that for plug out and proof: paid once, by whatever step comes first. */
  readonly ready: number;
  /** Access groups it opens or needs open, as indices of `Ground.groups`. */
  readonly groups: readonly number[];
  readonly open: Uint8Array;
  /** One table a question, as far as work reached. */
  readonly tables: readonly OutcomeTable[];
}

export interface Survey {
  readonly surveyed: readonly Surveyed[];
  /** Tables asked for. */
  readonly tables: number;
  /** No offer was left out for want of work. */
  readonly complete: boolean;
}

/** Questions that every offer is asked before any is asked more. */
const FIRST_QUESTIONS = 4;

/**
 * Asks the case what every offer may show, cheapest offers first. Offers that cannot be set up, or that cost more than
 * full knowledge would save, are passed over without asking. In pieces: one fault foreseen, or one table.
 *
 * @param waste       the most that knowledge could save, money
 * @param mostTables  outcome tables that may be asked for
 */
export function* survey(
  board: Board,
  offers: readonly Offer[],
  state: WorkState,
  shop: Shop,
  waste: number,
  mostTables: number,
): Pieces<Survey> {
  const ready = offers.flatMap((offer) => {
    const setUp = setUpFor(offer.needs, state, board.groups, shop);
    if (setUp === undefined || offer.questions.length === 0) return [];
    const groups = groupsOf(board, offer);
    const fixed = priceOf(setUp.minutes + setUp.closeMinutes + offer.minutes, shop);
    // Opening is not lost where something behind the cover would be gone to anyway.
    const opening = groups.reduce((sum, g) => sum + (board.open[g] === 1 ? 0 : (board.ground.groups[g]?.cost ?? 0)), 0);
    const cheapest = Math.min(...offer.questions.map((question) => minutesFor([question])));
    if (fixed - opening + priceOf(cheapest, shop) >= waste) return [];
    const open = Uint8Array.from(board.open);
    for (const g of groups) open[g] = 1;
    return [{ offer, setUp, fixed, ready: readyCost(setUp, shop), groups, open }];
  });
  ready.sort((a, b) => a.fixed - b.fixed || (a.offer.id < b.offer.id ? -1 : 1));
  const asked = questionsWithin(
    ready.map(({ offer }) => offer.questions.length),
    mostTables,
  );
  const surveyed = ready.map((one, n) => ({ one, seen: one.offer.questions.slice(0, asked[n]) }));
  const observations = surveyed.flatMap(({ seen }) => seen.map(({ observation }) => observation));
  if (board.case.foresee !== undefined) yield* board.case.foresee(observations, board.live);
  const tableOf = ({ observation }: OfferQuestion): OutcomeTable =>
    unknownAsMixture(board, completed(board.case.outcomes(observation, board.live)));
  const told: Surveyed[] = [];
  for (const { one, seen } of surveyed) {
    if (seen.length === 0) continue;
    const tables: OutcomeTable[] = [];
    for (const question of seen) {
      tables.push(tableOf(question));
      yield;
    }
    told.push({ ...one, tables });
  }
  return {
    surveyed: told,
    tables: asked.reduce((sum, count) => sum + count, 0),
    complete: surveyed.every(({ one, seen }) => seen.length === one.offer.questions.length),
  };
}

/** How many questions each offer is asked: everywhere a few before anywhere all, so that what is dear to reach is not left out. */
function questionsWithin(counts: readonly number[], most: number): readonly number[] {
  let left = most;
  const asked = counts.map(() => 0);
  for (const upTo of [FIRST_QUESTIONS, Number.POSITIVE_INFINITY]) {
    for (const [n, count] of counts.entries()) {
      const more = Math.min(Math.min(count, upTo) - (asked[n] as number), left);
      asked[n] = (asked[n] as number) + more;
      left -= more;
    }
  }
  return asked;
}

function groupsOf(board: Board, offer: Offer): number[] {
  const groups = new Set<number>();
  for (const id of offer.needs.access) {
    for (const group of accessChain(id, board.groups)) groups.add(board.groupIndex.get(group.id) ?? 0);
  }
  return [...groups];
}

/** Where outcomes do not add up to 1 (a slot that this variant does not have), the rest is an outcome of its own. */
function completed(table: OutcomeTable): OutcomeTable {
  const [first] = table.chance;
  if (first === undefined) return table;
  const rest = new Float64Array(first.length).fill(1);
  for (const chance of table.chance) {
    for (let i = 0; i < rest.length; i++) rest[i] = (rest[i] as number) - (chance[i] as number);
  }
  if (rest.every((missing) => missing < 1e-6)) return table;
  const observation = table.outcomes[0]?.observation;
  if (observation === undefined) return table;
  return {
    outcomes: [...table.outcomes, { id: "none of these", says: "none of these", observation }],
    chance: [...table.chance, rest.map((missing) => Math.max(0, missing))],
  };
}

/**
 * For planning, what this sheet does not know answers like all the rest together: it must never be the reason for a step,
 * as nothing is foreseen of it.
 */
function unknownAsMixture(board: Board, table: OutcomeTable): OutcomeTable {
  const weights = board.live.weights;
  const unknown = board.unknown;
  if (unknown.length === 0 || unknown.length === weights.length) return table;
  const known = 1 - unknown.reduce((sum, i) => sum + (weights[i] as number), 0);
  const chance = table.chance.map((row) => {
    let mixed = 0;
    for (let i = 0; i < row.length; i++) mixed += (weights[i] as number) * (row[i] as number);
    for (const i of unknown) mixed -= (weights[i] as number) * (row[i] as number);
    const answer = Float64Array.from(row);
    for (const i of unknown) answer[i] = mixed / known;
    return answer;
  });
  return { outcomes: table.outcomes, chance };
}
