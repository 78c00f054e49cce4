import type { Fault } from "../predict/index.ts";
import type { SignRule } from "../sheet/index.ts";
import { type Observation, SOMETIMES, saidBy } from "../sign/index.ts";
import type { Foresight } from "./foresight.ts";
import type { Judge } from "./hypothesis-chance.ts";

type SignSeen = Extract<Observation, { kind: "sign" }>;

/** Runs of the machine that a person has in mind when saying "always", "never" or "sometimes" (from memory). */
const RUNS_IN_MIND = 5;
/** Chance of "sometimes" for what is always so (from memory). */
const LOOSELY_SAID = 0.03;

/** All answers of a sign under what each fault makes of it, by one witness. */
export function judgeSign(foresight: Foresight, sign: SignRule, seen: SignSeen): Judge<ArrayLike<number>> {
  const count = sign.answers.length;
  return {
    foresee: (fault: Fault) => foresight.answers(sign, fault),
    same: sameNumbers,
    chances: (truth) => saidBy(sign, seen.witness, truth),
    anything: new Float64Array(count).fill(1 / count),
    costs: sign.rule.kind === "table" ? "nothing" : "a run",
  };
}

/** The one answer that was given; "sometimes" is an answer to any sign. */
export function judgeAnswerGiven(foresight: Foresight, sign: SignRule, seen: SignSeen): Judge<ArrayLike<number>> {
  const all = judgeSign(foresight, sign, seen);
  if (seen.answer === SOMETIMES) {
    return {
      ...all,
      chances: () => Float64Array.of(LOOSELY_SAID),
      comesAndGoes: (failsOn, present, healthy) => {
        const mixed = 1 - failsOn ** RUNS_IN_MIND - (1 - failsOn) ** RUNS_IN_MIND;
        return Float64Array.of(sameNumbers(present, healthy) ? LOOSELY_SAID : mixed);
      },
      anything: Float64Array.of(0.3),
    };
  }
  const answer = sign.answers.indexOf(seen.answer);
  if (answer < 0) throw new RangeError(`suspect: sign ${sign.id} has no answer ${seen.answer}`);
  return {
    ...all,
    chances: (truth) => all.chances(truth).slice(answer, answer + 1),
    anything: all.anything.slice(answer, answer + 1),
  };
}

function sameNumbers(a: ArrayLike<number>, b: ArrayLike<number>): boolean {
  for (let i = 0; i < a.length; i++) if (Math.abs(a[i] - b[i]) > 1e-9) return false;
  return true;
}
