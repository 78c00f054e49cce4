import { modesOf } from "../fault/index.ts";
import type { Moment } from "../part/index.ts";
import { type Fault, FaultMap, type House, Predictor } from "../predict/index.ts";
import type { Machine, SignRule } from "../sheet/index.ts";
import { MeanMoment, type Seen, trueAnswers } from "../sign/index.ts";
import type { Foresight } from "./foresight.ts";

/**
 * Foresight of one machine from its circuit and its programme; everything is worked out when first asked, and kept. A
 * predictor of the same machine may be shared.
 */
export function foreseeing(
  machine: Machine,
  predictor: Predictor = new Predictor(machine, modesOf(machine)),
): Foresight {
  const answers = new Map<string, FaultMap<Float64Array>>();
  const commands = new Map<string, FaultMap<ReadonlySet<string>>>();
  return {
    machine,
    modes: predictor.modes,
    atoms: predictor.atoms,
    answers: (sign, fault) => keptIn(answers, sign.id, fault, () => answersOf(predictor, sign, fault)),
    commands: (step, fault) => keptIn(commands, step, fault, () => commandsOf(predictor, step, fault)),
    has: (probe) => predictor.has(probe),
    shows: (probe, inputOhms, fault) => predictor.shows(probe, inputOhms, fault),
    isQuick: (probe) => predictor.isQuick(probe),
  };
}

/** What is known of a fault under a name, worked out where it is not known yet. */
function keptIn<T>(all: Map<string, FaultMap<T>>, name: string, fault: Fault, make: () => T): T {
  let kept = all.get(name);
  if (kept === undefined) {
    kept = new FaultMap();
    all.set(name, kept);
  }
  let known = kept.get(fault);
  if (known === undefined) {
    known = make();
    kept.set(fault, known);
  }
  return known;
}

const NOTHING_SEEN: Seen = { moment: () => undefined, said: [] };

/** Chances of the true answers: a hard one in each house the machine may stand in. */
export function answersOf(predictor: Predictor, sign: SignRule, fault: Fault): Float64Array {
  if (sign.rule.kind === "table") return trueAnswers(sign, predictor.machine, fault, NOTHING_SEEN);
  const chances = new Float64Array(sign.answers.length);
  for (const house of predictor.houses(fault)) {
    const found = trueAnswers(sign, predictor.machine, fault, seenIn(house));
    for (let a = 0; a < chances.length; a++) chances[a] += house.weight * found[a];
  }
  return chances;
}

function commandsOf(predictor: Predictor, step: string, fault: Fault): ReadonlySet<string> {
  const run = predictor.runOf(fault);
  const driven = new Set<string>();
  for (const at of ["now", "seconds", "minutes"]) {
    for (const { variables } of run.pictures.get(`${step}@${at}`)?.members ?? []) {
      for (const [v, { id, role }] of predictor.machine.variables.entries()) {
        if (role === "output" && variables[v] > 0) driven.add(id);
      }
    }
  }
  return driven;
}

function seenIn({ run, solved }: House): Seen {
  return {
    said: run.said,
    moment(step, at): Moment | undefined {
      const key = `${step}@${at}`;
      const picture = run.pictures.get(key);
      if (picture === undefined) return undefined;
      const solve = picture.members.map((member) => () => solved(member, key).live);
      if (solve.length === 1) return solve[0]();
      return new MeanMoment(picture.members.map(({ weight }, i) => ({ weight, solve: solve[i] })));
    },
  };
}
