import { priceOf, type Shop } from "../remedy/index.ts";
import type { OutcomeTable } from "../suspect/index.ts";
import { type ByTarget, gatherByTarget, gatherWeights } from "./by-target.ts";
import { placeOfOffer } from "./checks.ts";
import type { Board } from "./ground.ts";
import { minutesFor, type OfferQuestion } from "./offer.ts";
import type { Surveyed } from "./survey.ts";

/** Further questions at one place tell partly what the first one told: each counts by this share of the one before. */
const NEXT_TELLS = 0.8;
const MOST_TOGETHER = 6;
/** What tests at several places tell overlaps; so much of it is new (from memory, held against simulated jobs). */
const NEW = 0.8;
/**
 * Minutes for each nat that no question at hand tells as yet: doubt that is left narrows to a few suspects, and of few
 * suspects every question tells more (from memory, held against simulated jobs).
 */
const MINUTES_A_NAT = 12;
/** More nats than there ever are to know. */
const ENDLESS = 100;
/** A place that tells less than this (nats) is not gone to for it. */
const TELLS_NOTHING = 0.01;

/** What one place tells for its price, what has to be opened for it apart. */
interface Source {
  readonly place: string;
  readonly nats: number;
  readonly price: number;
  readonly groups: readonly number[];
}

/** Price of knowing more and more: the best bargains first, the last without end. */
export type Curve = readonly { readonly nats: number; readonly price: number }[];

/**
 * What it costs to find out what is wrong when each time the place is gone to that tells most for its price.
 *
 * The base policy tests one suspect after the other and so sees no use in a reading that halves what is left. Here doubt
 * is counted in nats over the places at which something can be mended, and bought from the places at hand. Neither account
 * is a bound: the least of both is what the lookahead goes by.
 *
 * @source price of information: entropy bound of Pattipati & Alexandridis 1990 (from memory), used as an estimate
 */
export class Knowing {
  readonly #board: Board;
  readonly #shop: Shop;
  readonly #sources: readonly Source[];
  readonly #curves = new Map<string, Curve>();

  constructor(board: Board, surveyed: readonly Surveyed[], shop: Shop) {
    this.#board = board;
    this.#shop = shop;
    const held = new Float64Array(board.ground.targets.length);
    gatherByTarget(board, held);
    const best = new Map<string, Source>();
    for (const one of surveyed) {
      const source = sourceOf(board, held, one, shop);
      const known = best.get(source.place);
      const rate = ({ nats, price }: Source): number => nats / (price + 1e-9);
      if (source.nats > TELLS_NOTHING && (known === undefined || rate(source) > rate(known)))
        best.set(source.place, source);
    }
    this.#sources = [...best.values()];
  }

  /** The curve once these places are used up and these covers are off. */
  after(places: readonly string[], open: Uint8Array): Curve {
    const key = `${places.join(" ")} ${open.join("")}`;
    const known = this.#curves.get(key) ?? this.#curve(places, open);
    this.#curves.set(key, known);
    return known;
  }

  #curve(places: readonly string[], open: Uint8Array): Curve {
    const { groups } = this.#board.ground;
    const covers = Uint8Array.from(open);
    const left = this.#sources.filter(({ place }) => !places.includes(place));
    const curve: { nats: number; price: number }[] = [];
    const last = { nats: ENDLESS, price: priceOf(ENDLESS * MINUTES_A_NAT, this.#shop) };
    while (left.length > 0) {
      let pick = 0;
      let least = Number.POSITIVE_INFINITY;
      let price = 0;
      left.forEach((source, n) => {
        const cost =
          source.price + source.groups.reduce((sum, g) => sum + (covers[g] === 1 ? 0 : (groups[g]?.cost ?? 0)), 0);
        if (cost / source.nats >= least) return;
        pick = n;
        least = cost / source.nats;
        price = cost;
      });
      const [taken] = left.splice(pick, 1);
      if (taken === undefined) break;
      for (const g of taken.groups) covers[g] = 1;
      curve.push({ nats: taken.nats * NEW, price });
    }
    return [...curve, last];
  }
}

/** Money to know so much more. */
export function priceOfKnowing(curve: Curve, nats: number): number {
  let left = nats;
  let price = 0;
  for (const source of curve) {
    if (left <= 0) break;
    price += source.price * Math.min(1, left / source.nats);
    left -= source.nats;
  }
  return price;
}

function sourceOf(
  board: Board,
  held: Float64Array,
  { offer, fixed, groups, tables, ready }: Surveyed,
  shop: Shop,
): Source {
  const told = tables
    .map((table, q) => ({ question: offer.questions[q] as OfferQuestion, nats: toldOfTargets(board, held, table) }))
    .sort((a, b) => b.nats - a.nats)
    .slice(0, MOST_TOGETHER);
  const access = groups.reduce((sum, g) => sum + (board.open[g] === 1 ? 0 : (board.ground.groups[g]?.cost ?? 0)), 0);
  const reached = Math.max(0, fixed - access - ready);
  let best: Source = { place: placeOfOffer(offer.id), nats: 0, price: reached, groups };
  let nats = 0;
  told.forEach((one, n) => {
    nats += one.nats * NEXT_TELLS ** n;
    const price = reached + priceOf(minutesFor(told.slice(0, n + 1).map(({ question }) => question)), shop);
    if (nats / (price + access + 1e-9) > best.nats / (best.price + access + 1e-9)) best = { ...best, nats, price };
  });
  return best;
}

/** Doubt of where something has to be mended that is gone, on average, once one of these is known to be so; nats. */
export function toldByCells(board: ByTarget, cells: readonly { readonly weights: ArrayLike<number> }[]): number {
  const held = new Float64Array(board.ground.targets.length);
  const before = doubtIn(held, gatherByTarget(board, held));
  return cells.reduce((told, { weights }) => told - doubtIn(held, gatherWeights(board, held, weights)), before);
}

/** Doubt of where something has to be mended, nats. */
export function doubtOf(board: ByTarget): number {
  const held = new Float64Array(board.ground.targets.length);
  return doubtIn(held, gatherByTarget(board, held));
}

/** Entropy of what is held, times its sum. */
function doubtIn(held: Float64Array, whole: number): number {
  return held.reduce((sum, w) => (w > 0 ? sum - w * Math.log(w / whole) : sum), 0);
}

/** How much a question tells of where something has to be mended: mutual information, nats. */
function toldOfTargets(board: Board, held: Float64Array, table: OutcomeTable): number {
  const joint = new Float64Array(held.length);
  let nats = 0;
  for (const chance of table.chance) {
    const outcome = gatherByTarget(board, joint, chance);
    for (let t = 0; t < joint.length; t++) {
      const both = joint[t] as number;
      if (both > 0) nats += both * Math.log(both / ((held[t] as number) * outcome));
    }
  }
  return Math.max(0, nats);
}
