import type { BenchLine, BenchStep, Grade } from "../../../core/bench/index.ts";
import { unitOfQuantity } from "../../../core/meter/index.ts";
import { formatAmount } from "../../../core/quantity/index.ts";
import { text } from "../english.ts";

/** What a line comes to: the finding, and the word on it. */
export function verdictInWords({ shown, tally, verdict }: BenchLine, step: BenchStep): string {
  const counted = tally === undefined ? [] : [text.step.counted(tally.good, tally.of)];
  const found = [
    ...(shown === "" || step.reading === undefined ? [] : [withUnit(shown, step.reading)]),
    ...counted,
  ].join(", ");
  if (verdict === undefined) return found;
  const { says, more, failsAtMost } = verdict;
  const word = says === "go on" && more !== undefined ? text.bench.goOn(more) : text.bench.verdicts[says];
  const bound = failsAtMost === undefined || says === "bad" ? "" : `; ${text.bench.failsAtMost(failsAtMost)}`;
  return `${found === "" ? "" : `${found}: `}${word}${bound}`;
}

/** What was typed, with the unit of a bare number: `200M` read as ohms is "200 MΩ". */
function withUnit(typed: string, { quantity }: NonNullable<BenchStep["reading"]>): string {
  if (/^ol$/i.test(typed)) return "OL";
  const [, number, size] = /^([\d.,]+)\s*([kMmµ]?)$/.exec(typed) ?? [];
  if (number === undefined) return typed;
  return `${number} ${size}${formatAmount(1, unitOfQuantity(quantity)).replace(/^1\s*/, "")}`;
}

export function gradeInWords({ says, cleaned }: Grade): string {
  const { grades, cleanedBefore } = text.bench;
  return cleaned && (says === "good" || says === "not faulted") ? `${grades[says]}, ${cleanedBefore}` : grades[says];
}
