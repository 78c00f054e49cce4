import type { Pieces } from "../pace/index.ts";
import { type Atom, type Prediction, stateName } from "../predict/index.ts";
import type { SignRule } from "../sheet/index.ts";
import { type Observation, whichCount } from "../sign/index.ts";
import type { Belief, Candidate, Case, Live, Outcome, OutcomeTable } from "./case.ts";
import { Exactness } from "./exactness.ts";
import type { Foresight } from "./foresight.ts";
import { type Judge, Judged, LEAST_CHANCE } from "./hypothesis-chance.ts";
import { judgeCount } from "./judge-count.ts";
import { judgeLook } from "./judge-look.ts";
import { anywhere, judgeBands, type ReadingSeen, SLIP, unknowable } from "./judge-reading.ts";
import { judgeSign } from "./judge-sign.ts";
import { type Chances, folded, judgedSeen, signJudge, variantChances, variantsOf } from "./judges.ts";
import { answerOutcomes, countOutcomes, lookOutcomes, readingOutcomes, signOutcomes } from "./outcomes.ts";
import { type Foreseen, partitionOf } from "./partition.ts";
import { type Entry, withPrior } from "./prior.ts";
import { Remembered } from "./remembered.ts";
import { beliefOf, type ChancesByNumber, type Roll, rollOf, type Weighing } from "./update.ts";

/** Times that an update may stop to foresee more exactly what has become likely. */
const SHARPENED_AT_MOST = 5;

/** An observation weighed: its chances are kept, and worked out again when more is known exactly. */
interface Weighed extends Omit<Weighing, "index"> {
  readonly chances: Chances;
  readonly version: number;
}

/**
 * Every fault of every candidate has a number: those of one candidate follow on those of the candidate before. Of each
 * pair its two, of all that is no pair −1; made once, since they are walked for every observation.
 */
interface PairNumbers {
  readonly first: Int32Array;
  readonly second: Int32Array;
}

/** A case made of what each candidate foresees and a list of hypotheses; the rest is arithmetic. */
export class ForeseenCase implements Case {
  readonly candidates: readonly Candidate[];
  readonly hypotheses: readonly Entry[];
  readonly foresights: readonly Foresight[];
  #exactness: Exactness;
  #weighed = new Remembered<Weighed>();
  #roll: Roll | undefined;
  #numbered: PairNumbers | undefined;

  constructor(foresights: readonly Foresight[], weights: readonly number[], hypotheses: readonly Entry[]) {
    this.foresights = foresights;
    this.hypotheses = hypotheses;
    this.candidates = foresights.map(({ machine, modes }, c) => ({ machine, modes, weight: weights[c] }));
    this.#exactness = new Exactness(foresights, weights, hypotheses);
  }

  /** The same hypotheses at other odds. No chance of an observation hangs on odds, so what one has worked out serves both. */
  atOdds(logPriors: ArrayLike<number>): ForeseenCase {
    const other = new ForeseenCase(
      this.foresights,
      this.candidates.map(({ weight }) => weight),
      this.hypotheses.map((entry, h) => withPrior(entry, logPriors[h])),
    );
    other.#exactness = this.#exactness;
    other.#weighed = this.#weighed;
    other.#numbered = this.#pairs;
    return other;
  }

  logLikelihood(observation: Observation): Float64Array {
    const { numbers, logChance } = this.#weigh(observation);
    return Float64Array.from(numbers, (number) => logChance[number]);
  }

  update(observations: readonly Observation[]): Belief {
    const counts = whichCount(observations);
    this.#roll ??= rollOf(this.hypotheses, this.candidates);
    for (let round = 0; ; round++) {
      const seen = observations.flatMap((observation, index): readonly Weighing[] =>
        counts[index] ? [{ index, ...this.#weigh(observation) }] : [],
      );
      const belief = beliefOf(this.#roll, seen);
      if (round === SHARPENED_AT_MOST || !this.#exactness.sharpen(this.hypotheses, belief.logPosterior)) return belief;
    }
  }

  /**
   * Foresees and weighs, in pieces, what `update` will ask of these observations: a piece is one fault, since each may have
   * to be run through its programme, or one observation.
   */
  *foreseeAhead(observations: readonly Observation[]): Pieces<void> {
    const counts = whichCount(observations);
    const fresh = observations.filter((one, index) => counts[index] && this.#weighed.get(one) === undefined);
    yield* this.foreseeAnswers(fresh);
    for (const observation of fresh) {
      this.#weigh(observation);
      yield;
    }
  }

  /** Foresees, in pieces, what any answer to these will be weighed by: a piece is one fault. */
  *foreseeAnswers(observations: readonly Observation[]): Pieces<void> {
    if (observations.length === 0) return;
    for (const [c, foresight] of this.foresights.entries()) {
      for (const atom of foresight.atoms) {
        if (this.#exactness.standIn(c, atom) !== undefined) continue;
        for (const observation of observations) foreseeOne(foresight, observation, atom);
        yield;
      }
    }
  }

  *foresee(observations: readonly Observation[], { hypotheses }: Live): Pieces<void> {
    const inOrder = [...observations].sort((a, b) => (byState(a) < byState(b) ? -1 : 1));
    const done = new Set<Atom>();
    for (const h of hypotheses) {
      const { candidate, atoms } = this.hypotheses[h];
      for (const atom of atoms) {
        const twin = this.#exactness.standIn(candidate, atom);
        if (done.has(twin ?? atom)) continue;
        done.add(twin ?? atom);
        const foresight = this.foresights[twin === undefined ? candidate : this.#exactness.reference];
        for (const observation of inOrder) foreseeOne(foresight, observation, twin ?? atom);
        yield;
      }
    }
  }

  prediction(hypothesis: number, observation: Observation): Prediction | undefined {
    if (observation.kind !== "reading") return undefined;
    const { probe, meter } = observation;
    const entry = this.hypotheses[hypothesis];
    const foresight = this.foresights[entry.candidate];
    if (entry.kind === "not on this sheet" || !foresight.has(probe)) return { terms: anywhere(probe, meter) };
    const present = foresight.shows(probe, meter.inputOhms, entry.atoms);
    if (entry.failsOn === 1) return present;
    const good = foresight.shows(probe, meter.inputOhms, []);
    return {
      terms: [
        ...present.terms.map((term) => ({ ...term, weight: term.weight * entry.failsOn })),
        ...good.terms.map((term) => ({ ...term, weight: term.weight * (1 - entry.failsOn) })),
      ],
    };
  }

  outcomes(observation: Observation, live?: Live): OutcomeTable {
    const asked = live ?? this.#all();
    switch (observation.kind) {
      case "sign": {
        const { answers } = this.#sign(observation.sign);
        return this.#table(signOutcomes(answers, observation), asked, (foresight) =>
          signJudge(foresight, observation.sign, answers.length, (sign) => judgeSign(foresight, sign, observation)),
        );
      }
      case "look":
        return this.#table(lookOutcomes(observation), asked, (foresight) => judgeLook(foresight, observation));
      case "answer": {
        const variants = variantsOf(this.foresights, observation.slot);
        return this.#table(answerOutcomes(variants, observation), asked, (foresight) =>
          unknowable(variantChances(foresight, observation.slot, variants)),
        );
      }
      case "count":
        return this.#table(countOutcomes(observation), asked, (foresight) =>
          folded(judgeCount(foresight, observation.probe, observation.of), observation.of),
        );
      case "reading": {
        const partition = partitionOf(this.#foreseen(observation, asked), {
          meter: observation.meter,
          quantity: observation.probe.quantity,
          leads: observation.leads,
        });
        return this.#table(readingOutcomes(partition, observation), asked, (foresight) =>
          judgeBands(foresight, observation, partition),
        );
      }
    }
  }

  /** What the living hypotheses foresee of a reading, each thing once with the weight of all that foresee it. */
  #foreseen({ probe, meter }: ReadingSeen, { hypotheses, weights }: Live): readonly Foreseen[] {
    const found = new Map<Prediction, Map<string, number>>();
    const add = (prediction: Prediction, weight: number, of: string): void => {
      const held = found.get(prediction) ?? new Map<string, number>();
      found.set(prediction, held.set(of, (held.get(of) ?? 0) + weight));
    };
    for (let i = 0; i < hypotheses.length; i++) {
      const { kind, candidate, atoms, failsOn } = this.hypotheses[hypotheses[i]];
      const foresight = this.foresights[candidate];
      if (kind === "not on this sheet" || !foresight.has(probe)) continue;
      const share = weights[i] / Math.max(1, atoms.length);
      if (atoms.length === 0 || failsOn < 1) {
        add(
          foresight.shows(probe, meter.inputOhms, []),
          atoms.length === 0 ? weights[i] : weights[i] * (1 - failsOn),
          atoms[0]?.mode.id ?? "",
        );
      }
      for (const atom of atoms) {
        const twin = this.#exactness.standIn(candidate, atom);
        const lender = this.foresights[this.#exactness.reference];
        const borrows = twin !== undefined && lender.has(probe);
        const shown = borrows
          ? lender.shows(probe, meter.inputOhms, [twin])
          : foresight.shows(probe, meter.inputOhms, [atom]);
        add(shown, share * failsOn, atom.mode.id);
      }
    }
    return [...found].map(([prediction, of]) => ({
      prediction,
      weight: [...of.values()].reduce((sum, weight) => sum + weight, 0),
      of,
    }));
  }

  #table<Shown>(outcomes: readonly Outcome[], live: Live, make: (foresight: Foresight) => Judge<Shown>): OutcomeTable {
    const chance = outcomes.map(() => new Float64Array(live.hypotheses.length));
    const judged = new Judged(this.foresights, this.#exactness, make);
    for (let i = 0; i < live.hypotheses.length; i++) {
      const chances = judged.of(this.hypotheses[live.hypotheses[i]]);
      for (let o = 0; o < outcomes.length; o++) chance[o][i] = chances[o];
    }
    return { outcomes, chance };
  }

  #weigh(observation: Observation): Weighed {
    const known = this.#weighed.get(observation);
    const { version } = this.#exactness;
    if (known?.version === version) return known;
    const chances = known?.chances ?? judgedSeen(this.foresights, this.#exactness, observation);
    const byNumber = this.#byNumber(chances);
    const logAnything = Math.log(Math.max(chances.anything[0], LEAST_CHANCE));
    const logSlip =
      observation.kind === "reading"
        ? Math.log(SLIP) + logAnything
        : byNumber.numbers.reduce((least, number) => Math.min(least, byNumber.logChance[number]), 0);
    const weighed = { chances, version, ...byNumber, logSlip, logAnything };
    this.#weighed.set(observation, weighed);
    return weighed;
  }

  #byNumber(chances: Chances): ChancesByNumber {
    const { first, second } = this.#pairs;
    const numbers = new Int32Array(first.length);
    const singles = this.foresights.map((_, c) => chances.singles(c));
    const quiet = singles.flatMap((one) => [...one.quiet]);
    const chance = singles.flatMap((one) => [...one.chance]);
    for (let h = 0; h < numbers.length; h++) {
      const a = first[h];
      // Most pairs hold a fault that changes nothing here; the rest, and all that is no pair, are judged in full.
      if (a >= 0 && quiet[a] === 1) numbers[h] = second[h];
      else if (a >= 0 && quiet[second[h]] === 1) numbers[h] = a;
      else numbers[h] = chance.push(Math.max(chances.of(this.hypotheses[h])[0], LEAST_CHANCE)) - 1;
    }
    return { numbers, chance: Float64Array.from(chance), logChance: Float64Array.from(chance, Math.log) };
  }

  get #pairs(): PairNumbers {
    if (this.#numbered === undefined) {
      const start: number[] = [0];
      for (const [c, { atoms }] of this.foresights.entries()) start.push(start[c] + atoms.length);
      const numberOf = ({ candidate, atoms }: Entry, which: number): number =>
        atoms.length === 2 ? start[candidate] + atoms[which].index : -1;
      this.#numbered = {
        first: Int32Array.from(this.hypotheses, (entry) => numberOf(entry, 0)),
        second: Int32Array.from(this.hypotheses, (entry) => numberOf(entry, 1)),
      };
    }
    return this.#numbered;
  }

  #all(): Live {
    const { hypotheses } = this;
    return {
      hypotheses: Int32Array.from(hypotheses.keys()),
      weights: Float64Array.from(hypotheses, ({ logPrior }) => Math.exp(logPrior)),
    };
  }

  #sign(id: string): SignRule {
    for (const { machine } of this.foresights) {
      const sign = machine.signs.find((one) => one.id === id);
      if (sign !== undefined) return sign;
    }
    throw new RangeError(`suspect: no sign ${id}`);
  }
}

/** What is read in one state follows one another: it is solved but once. */
function byState(observation: Observation): string {
  return observation.kind === "reading" ? stateName(observation.probe.state) : "";
}

/** Has a fault worked out where an observation may show it; it is kept there. */
function foreseeOne(foresight: Foresight, observation: Observation, atom: Atom): void {
  if (observation.kind === "sign") {
    const sign = foresight.machine.signs.find(({ id }) => id === observation.sign);
    if (sign !== undefined) foresight.answers(sign, [atom]);
  }
  if (observation.kind === "reading" && foresight.has(observation.probe)) {
    foresight.shows(observation.probe, observation.meter.inputOhms, [atom]);
  }
}
