import type { BasePolicy } from "./base-policy.ts";
import { heaviestPlace, likelierPlace } from "./by-target.ts";
import type { Cell } from "./cells.ts";
import type { Board } from "./ground.ts";
import type { Act, LeafValue } from "./leaf-value.ts";
import type { Valued } from "./valued.ts";

/** From here nothing is read any more before a place is mended. */
const SURE = 0.85;
/** What holds more than this share is what was found; a remedy is meant for it that mends at least this share of it. */
const LIKELIER_THAN_NOT = 0.5;
/** A place that is cheap to look at is named before one that is likelier only if it weighs at least so much of that (our own choice). */
const NAMED = 0.75;
/** Share by which stopping must be undercut to go on. */
const NO_LESS = 1e-6;

/** What comes next: a remedy by its index among those worth trying now, a target mended or looked at, or stopping. */
export type Next =
  | { readonly do: "mend"; readonly remedy: number }
  | { readonly do: "mend" | "check"; readonly target: number }
  | { readonly do: "stop" };

/** What the outcomes of a valued step lead to, by the same account by which it was valued. */
export class WhatNext {
  readonly #board: Board;
  readonly #policy: BasePolicy;
  readonly #leaf: LeafValue;
  readonly #acts: readonly Act[];
  readonly #after: (step: Valued) => void;

  /** @param after  sets policy and leaf to what is left once a step was taken */
  constructor(board: Board, policy: BasePolicy, leaf: LeafValue, acts: readonly Act[], after: (step: Valued) => void) {
    this.#board = board;
    this.#policy = policy;
    this.#leaf = leaf;
    this.#acts = acts;
    this.#after = after;
  }

  /**
   * Chance that a step changes what would be mended next if nothing more were looked at. A step that cannot change it is
   * idle, however much it tells.
   */
  turns(step: Valued): number {
    this.#after(step);
    const chances = new Map<number, number>();
    for (const cell of step.cells) {
      const mend = this.#leaf.mend(cell.weights, step.open);
      chances.set(mend, (chances.get(mend) ?? 0) + cell.chance);
    }
    return 1 - Math.max(...chances.values());
  }

  /**
   * Chance that a step leads to something else than what it leads to most often: another repair, or something else to look
   * at; the second only where it is counted.
   */
  parts(step: Valued, countsChecks: boolean): number {
    const chances = new Map<string, number>();
    let most = 0;
    for (const cell of step.cells) {
      const next = this.next(step, cell);
      if (next.do === "check" && !countsChecks) return 1;
      const what = "remedy" in next ? `remedy ${next.remedy}` : "target" in next ? this.#idOf(next.target) : "";
      const lead = `${next.do} ${what}`;
      chances.set(lead, (chances.get(lead) ?? 0) + cell.chance);
      most = Math.max(most, chances.get(lead) ?? 0);
    }
    return 1 - most;
  }

  /**
   * Money that a step saves if nothing more is looked at after it: what would be mended without it, against what is mended
   * after each of its outcomes, and the covers that this would have to open as well. Nil where every outcome leads to the
   * same repair.
   */
  saves(step: Valued): number {
    this.#after(step);
    const without = this.#leaf.mend(this.#board.live.weights, step.open);
    let saved = 0;
    for (const { weights, chance } of step.cells) {
      const mend = this.#leaf.mend(weights, step.open);
      if (mend !== without)
        saved += this.#mending(without, weights, chance, step.open) - this.#mending(mend, weights, chance, step.open);
    }
    return saved > 0 ? saved + this.#opened(without, step.open) : 0;
  }

  /** Money of a remedy that a step with these covers off has paid already: covers, plug out and proof. */
  #opened(mend: number, open: Uint8Array): number {
    const { weights } = this.#board.live;
    const ready = this.#mending(mend, weights, 1, open);
    const { isDead } = this.#leaf;
    this.#leaf.isDead = false;
    const whole = this.#mending(mend, weights, 1, this.#board.open);
    this.#leaf.isDead = isDead;
    return whole - ready;
  }

  /** What comes next after one outcome of a step: a remedy (by index), a look at a target, or stopping. */
  next(step: Valued, { weights, chance }: Cell): Next {
    this.#after(step);
    const cost = this.#leaf.cost(weights, step.open);
    const { act } = this.#leaf;
    const heaviest = heaviestPlace(this.#board, weights);
    const known = heaviest.weight >= SURE * chance;
    // What was found goes before what is only cheap to try beside it.
    const isBeside = (remedy: number): boolean =>
      heaviest.weight > LIKELIER_THAN_NOT * chance &&
      this.#meantFor(remedy, weights) < LIKELIER_THAN_NOT * heaviest.weight;
    if (act !== undefined && !isBeside(act)) return { do: "mend", remedy: act };
    this.#leaf.testing(weights, step.open);
    const first = this.#policy.first;
    if (first.do === "stop" && cost > this.#board.ground.stop * chance * (1 - NO_LESS)) return { do: "stop" };
    const sure = known && (first.do === "stop" || heaviest.id === this.#idOf(first.target));
    const remedy = sure || first.do === "mend" ? this.#leaf.mend(weights, step.open) : -1;
    if (remedy >= 0 && !isBeside(remedy)) return { do: "mend", remedy };
    const target = first.do === "stop" ? heaviest.target : this.#named(first.target, weights, chance);
    return { do: sure ? "mend" : "check", target };
  }

  /** Weight of what a remedy is meant for. */
  #meantFor(remedy: number, weights: Float64Array): number {
    return weights.reduce((sum, w, i) => sum + w * (this.#acts[remedy]?.needed[i] ?? 0), 0);
  }

  /** What would be looked at first, or what was made likelier where that weighs far more: a person goes by what was found. */
  #named(first: number, weights: Float64Array, chance: number): number {
    const likelier = likelierPlace(this.#board, weights, chance);
    let held = 0;
    weights.forEach((w, i) => {
      if (this.#idOf(this.#board.ground.targetOf[i] as number) === this.#idOf(first)) held += w;
    });
    return held < NAMED * likelier.weight ? likelier.target : first;
  }

  #idOf(target: number): string | undefined {
    return this.#board.ground.targets[target]?.id;
  }

  /** Money of one remedy on the chance, or of stopping (-1). */
  #mending(mend: number, weights: Float64Array, chance: number, open: Uint8Array): number {
    const act = this.#acts[mend];
    return act === undefined ? chance * this.#board.ground.stop : this.#leaf.costOf(act, weights, open);
  }
}
