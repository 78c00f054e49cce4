import type { SingleShown } from "../meter/index.ts";
import type { Prediction } from "../predict/index.ts";
import type { SignRule } from "../sheet/index.ts";
import { type Observation, whichCount } from "../sign/index.ts";
import type { Belief, Candidate, Case, Live, Outcome, OutcomeTable } from "./case.ts";
import type { Foresight } from "./foresight.ts";
import { CandidateChances, type Judge } from "./hypothesis-chance.ts";
import { judgeCount } from "./judge-count.ts";
import { judgeLook } from "./judge-look.ts";
import {
  anywhere,
  FALSE_PASS,
  judgeReading,
  type ReadingSeen,
  readingJudge,
  SLIP,
  unknowable,
} from "./judge-reading.ts";
import { judgeAnswerGiven, judgeSign } from "./judge-sign.ts";
import { answerOutcomes, countOutcomes, lookOutcomes, readingOutcomes, signOutcomes } from "./outcomes.ts";
import { bandChances, partitionOf } from "./partition.ts";
import type { Entry } from "./prior.ts";
import { beliefOf, type Roll, rollOf, type Weighing } from "./update.ts";

/** A slot answered by a look is wrong this often (from memory). */
const WRONG_VARIANT = 0.005;

/** A case made of what each candidate foresees and a list of hypotheses; the rest is arithmetic. */
export class ForeseenCase implements Case {
  readonly candidates: readonly Candidate[];
  readonly hypotheses: readonly Entry[];
  readonly foresights: readonly Foresight[];
  #roll: Roll | undefined;
  readonly #weighed = new WeakMap<Observation, Omit<Weighing, "index">>();

  constructor(foresights: readonly Foresight[], weights: readonly number[], hypotheses: readonly Entry[]) {
    this.foresights = foresights;
    this.hypotheses = hypotheses;
    this.candidates = foresights.map(({ machine, modes }, c) => ({ machine, modes, weight: weights[c] }));
  }

  logLikelihood(observation: Observation): Float64Array {
    return this.#weigh(observation).logChance;
  }

  update(observations: readonly Observation[]): Belief {
    const counts = whichCount(observations);
    const seen = observations.flatMap((observation, index) =>
      counts[index] ? [{ index, ...this.#weigh(observation) }] : [],
    );
    this.#roll ??= rollOf(this.hypotheses, this.candidates);
    return beliefOf(this.#roll, seen);
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
        const sign = this.#sign(observation.sign);
        return this.#table(signOutcomes(sign, observation), asked, (foresight) =>
          judgeOf(foresight, observation.sign, (own) => judgeSign(foresight, own, observation), sign.answers.length),
        );
      }
      case "look":
        return this.#table(lookOutcomes(observation), asked, (foresight) => judgeLook(foresight, observation));
      case "answer": {
        const variants = this.#variants(observation.slot);
        return this.#table(answerOutcomes(variants, observation), asked, (foresight) =>
          unknowable(variantChances(foresight, observation.slot, variants)),
        );
      }
      case "count":
        return this.#table(countOutcomes(observation), asked, (foresight) =>
          folded(judgeCount(foresight, observation.probe, observation.of), observation.of),
        );
      case "reading":
        return this.#readingTable(observation, asked);
    }
  }

  #readingTable(seen: ReadingSeen, live: Live): OutcomeTable {
    const { probe, meter, leads } = seen;
    const foreseen = [...live.hypotheses].flatMap((h, i) => {
      const prediction = this.#foreseenPart(h, seen);
      return prediction === undefined ? [] : [{ weight: live.weights[i], prediction }];
    });
    const partition = partitionOf(foreseen, { meter, quantity: probe.quantity, leads });
    const outcomes = readingOutcomes(partition, seen);
    const anything = bandChances(partition, { terms: anywhere(probe, meter) });
    return this.#table<Prediction>(outcomes, live, (foresight) => {
      if (!foresight.has(probe)) return unknowable(anything);
      const good = bandChances(partition, foresight.shows(probe, meter.inputOhms, []));
      const otherwise = anything.map((chance, o) => SLIP * chance + FALSE_PASS * good[o]);
      const chances = (prediction: Prediction): Float64Array => {
        const of = bandChances(partition, prediction);
        for (let o = 0; o < of.length; o++) of[o] = (1 - SLIP - FALSE_PASS) * of[o] + otherwise[o];
        return of;
      };
      return { ...readingJudge(foresight, probe, meter.inputOhms), chances, anything };
    });
  }

  /** What a hypothesis adds to the parting of the display: nothing where it has nothing to say. */
  #foreseenPart(h: number, seen: ReadingSeen): Prediction | undefined {
    const { kind, candidate, atoms } = this.hypotheses[h];
    if (kind === "not on this sheet" || !this.foresights[candidate].has(seen.probe)) return undefined;
    if (atoms.length < 2) return this.prediction(h, seen);
    return this.foresights[candidate].shows(seen.probe, seen.meter.inputOhms, atoms.slice(0, 1));
  }

  #table<Shown>(outcomes: readonly Outcome[], live: Live, judge: (foresight: Foresight) => Judge<Shown>): OutcomeTable {
    const chance = outcomes.map(() => new Float64Array(live.hypotheses.length));
    const judged = new Map<number, CandidateChances<Shown>>();
    for (let i = 0; i < live.hypotheses.length; i++) {
      const entry = this.hypotheses[live.hypotheses[i]];
      const chances = this.#judged(judged, entry.candidate, judge).of(entry);
      for (let o = 0; o < outcomes.length; o++) chance[o][i] = chances[o];
    }
    return { outcomes, chance };
  }

  #judged<Shown>(
    judged: Map<number, CandidateChances<Shown>>,
    candidate: number,
    judge: (foresight: Foresight) => Judge<Shown>,
  ): CandidateChances<Shown> {
    let known = judged.get(candidate);
    if (known === undefined) {
      known = new CandidateChances(judge(this.foresights[candidate]));
      judged.set(candidate, known);
    }
    return known;
  }

  #weigh(observation: Observation): Omit<Weighing, "index"> {
    let weighed = this.#weighed.get(observation);
    if (weighed === undefined) {
      weighed = this.#weighAnew(observation);
      this.#weighed.set(observation, weighed);
    }
    return weighed;
  }

  #weighAnew(observation: Observation): Omit<Weighing, "index"> {
    switch (observation.kind) {
      case "sign":
        return this.#logs((foresight) =>
          judgeOf(foresight, observation.sign, (sign) => judgeAnswerGiven(foresight, sign, observation), 1),
        );
      case "look": {
        const found = observation.found === "bad" ? 0 : 1;
        return this.#logs((foresight) => onlyOne(judgeLook(foresight, observation), found));
      }
      case "answer":
        return this.#logs((foresight) =>
          unknowable(variantChances(foresight, observation.slot, [observation.variant])),
        );
      case "count":
        return this.#logs((foresight) =>
          onlyOne(judgeCount(foresight, observation.probe, observation.of), observation.good),
        );
      case "reading": {
        const { shown } = observation;
        if (shown.kind === "count") {
          return this.#logs((foresight) => onlyOne(judgeCount(foresight, observation.probe, shown.of), shown.good));
        }
        return this.#weighReading(observation, shown);
      }
    }
  }

  #weighReading(seen: ReadingSeen, shown: SingleShown): Omit<Weighing, "index"> {
    const weighed = this.#logs((foresight) => judgeReading(foresight, seen, shown));
    return { ...weighed, logSlip: Math.log(SLIP) + weighed.logAnything };
  }

  /** The one outcome of each judge, as logs over all hypotheses. */
  #logs<Shown>(judge: (foresight: Foresight) => Judge<Shown>): Omit<Weighing, "index"> {
    const logChance = new Float64Array(this.hypotheses.length);
    const judged = new Map<number, CandidateChances<Shown>>();
    let logSlip = 0;
    let anything = Number.NaN;
    for (let h = 0; h < logChance.length; h++) {
      const entry = this.hypotheses[h];
      const chances = this.#judged(judged, entry.candidate, (foresight) => {
        const made = judge(foresight);
        anything = Math.max(made.anything[0], Number.isNaN(anything) ? 0 : anything);
        return made;
      });
      logChance[h] = Math.log(Math.max(chances.of(entry)[0], Number.MIN_VALUE));
      logSlip = Math.min(logSlip, logChance[h]);
    }
    return { logChance, logSlip, logAnything: Math.log(Math.max(anything, Number.MIN_VALUE)) };
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

  #variants(slot: string): readonly string[] {
    const found = this.foresights.flatMap(({ machine }) => machine.choice.get(slot) ?? []);
    return [...new Set(found)];
  }
}

/** A sign that a variant does not have says nothing for or against it. */
function judgeOf(
  foresight: Foresight,
  id: string,
  judge: (sign: SignRule) => Judge<ArrayLike<number>>,
  outcomes: number,
): Judge<ArrayLike<number>> {
  const sign = foresight.machine.signs.find((one) => one.id === id);
  if (sign !== undefined) return judge(sign);
  const even = new Float64Array(outcomes).fill(1 / Math.max(outcomes, 2));
  return { foresee: () => [], same: () => true, chances: () => even, anything: even, quickPairs: true };
}

/** Keeps one outcome of a judge. */
function onlyOne<Shown>(judge: Judge<Shown>, outcome: number): Judge<Shown> {
  const { comesAndGoes } = judge;
  return {
    ...judge,
    chances: (shown) => judge.chances(shown).slice(outcome, outcome + 1),
    ...(comesAndGoes === undefined
      ? {}
      : { comesAndGoes: (q, shown, healthy) => comesAndGoes(q, shown, healthy).slice(outcome, outcome + 1) }),
    anything: judge.anything.slice(outcome, outcome + 1),
  };
}

/** None, some, all of n. */
function folded<Shown>(judge: Judge<Shown>, of: number): Judge<Shown> {
  const fold = (all: Float64Array): Float64Array => Float64Array.of(all[0], 1 - all[0] - all[of], all[of]);
  const { comesAndGoes } = judge;
  return {
    ...judge,
    chances: (shown) => fold(judge.chances(shown)),
    ...(comesAndGoes === undefined
      ? {}
      : { comesAndGoes: (q, shown, healthy) => fold(comesAndGoes(q, shown, healthy)) }),
    anything: fold(judge.anything),
  };
}

function variantChances({ machine }: Foresight, slot: string, variants: readonly string[]): Float64Array {
  const wrong = WRONG_VARIANT / Math.max(1, variants.length - 1);
  return Float64Array.from(variants, (variant) => (machine.choice.get(slot) === variant ? 1 - WRONG_VARIANT : wrong));
}
