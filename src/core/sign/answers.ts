import type { Haste, Moment } from "../part/index.ts";
import type { Fault } from "../predict/index.ts";
import type { Machine, SignRule, SignTest } from "../sheet/index.ts";
import { meansMode } from "./name.ts";

/** What a machine with one fault was like while it ran: enough to answer any sign. */
export interface Seen {
  /** One moment of a step or condition; of a machine that hunts, the mean over its members. Undefined: never came to it. */
  moment(step: string, at: Haste | "end"): Moment | undefined;
  /** What it said, in order. */
  readonly said: readonly { readonly step: string; readonly says: string }[];
}

/**
 * Index of the true answer to a sign for one run, or chances where the sign is a table.
 *
 * States are hard: a condition holds or it does not. A step that was never reached leaves its conditions false.
 *
 * @returns chances of the answers, in the order of `sign.answers`
 */
export function trueAnswers(sign: SignRule, machine: Machine, fault: Fault, seen: Seen): Float64Array {
  const chances = new Float64Array(sign.answers.length);
  const { rule } = sign;
  if (rule.kind === "table") {
    chances[0] = tableChance(rule.chance, rule.otherwise, machine, fault);
    chances[1] = 1 - chances[0];
    return chances;
  }
  chances[hardAnswer(sign, rule, seen)] = 1;
  return chances;
}

function hardAnswer(sign: SignRule, rule: Exclude<SignRule["rule"], { kind: "table" }>, seen: Seen): number {
  switch (rule.kind) {
    case "test":
      return holds(rule.test, sign.in ?? "", seen) ? 0 : 1;
    case "levels": {
      const level = rule.tests.findIndex((test) => holds(test, sign.in ?? "", seen));
      return level < 0 ? sign.answers.length - 1 : level;
    }
    case "when-first": {
      const first = sign.answers.findIndex(
        (step, i) =>
          i > 0 &&
          HASTES.some((at) => {
            const moment = seen.moment(step, at);
            return moment !== undefined && rule.when(moment) !== 0;
          }),
      );
      return Math.max(first, 0);
    }
    case "says": {
      const last = seen.said.findLast(({ says }) => sign.answers.includes(says));
      return last === undefined ? 0 : sign.answers.indexOf(last.says);
    }
  }
}

const HASTES: readonly (Haste | "end")[] = ["now", "seconds", "minutes", "end"];

function holds(test: SignTest, step: string, seen: Seen): boolean {
  if ("all" in test) return test.all.every((inner) => holds(inner, step, seen));
  if ("any" in test) return test.any.some((inner) => holds(inner, step, seen));
  if ("not" in test) return !holds(test.not, step, seen);
  const moment = seen.moment(step, test.at);
  return moment !== undefined && test.when(moment) !== 0;
}

/** Several faults each get their chance to give the sign. */
function tableChance(chance: ReadonlyMap<string, number>, otherwise: number, machine: Machine, fault: Fault): number {
  let none = 1;
  let named = false;
  for (const atom of fault) {
    for (const [name, p] of chance) {
      if (!meansMode(name, atom.mode, machine)) continue;
      none *= 1 - p;
      named = true;
      break;
    }
  }
  return named ? 1 - none : otherwise;
}
