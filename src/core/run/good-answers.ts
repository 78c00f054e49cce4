import type { Haste } from "../part/index.ts";
import type { SignRule, SignTest } from "../sheet/index.ts";
import type { Runner } from "./runner.ts";

const moments: readonly (Haste | "end")[] = ["now", "seconds", "minutes", "end"];

/**
 * What a good machine answers to each sign that its circuit can answer, as [sign, answer]. Only for checking thresholds: where
 * even a good machine hunts, its longest member speaks for it.
 */
export function goodAnswers(runner: Runner): [string, string][] {
  return runner.machine.signs.flatMap((sign) => {
    const answer = answerOf(runner, sign);
    return answer === undefined ? [] : [[sign.id, answer] as [string, string]];
  });
}

function answerOf(runner: Runner, { rule, answers, in: step = "" }: SignRule): string | undefined {
  if (rule.kind === "test") return answers[holds(runner, rule.test, step) ? 0 : 1];
  if (rule.kind === "levels") {
    const level = rule.tests.findIndex((test) => holds(runner, test, step));
    return level < 0 ? answers[answers.length - 1] : answers[level];
  }
  if (rule.kind === "when-first") {
    const first = answers.slice(1).find((id) => moments.some((at) => holds(runner, { at, when: rule.when }, id)));
    return first ?? answers[0];
  }
  return undefined;
}

function holds(runner: Runner, test: SignTest, step: string): boolean {
  if ("all" in test) return test.all.every((inner) => holds(runner, inner, step));
  if ("any" in test) return test.any.some((inner) => holds(runner, inner, step));
  if ("not" in test) return !holds(runner, test.not, step);
  const key = `${step}@${test.at}`;
  const members = runner.healthy.pictures.get(key)?.members ?? [];
  if (members.length === 0) return false;
  const longest = members.reduce((best, member) => (member.weight > best.weight ? member : best));
  const value = test.when(runner.restore(nothing, longest, key).live);
  return value !== 0 && !Number.isNaN(value);
}

/** No fault; one array, so that the runner sees that it is the same. */
const nothing = [] as const;
