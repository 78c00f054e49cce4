import type { WorkedJob } from "../../core/ledger/index.ts";
import type { Explanation, Legs } from "../../core/suspect/index.ts";
import { observationInWords } from "./observation.ts";
import { oddsInWords } from "./odds.ts";
import { wrap } from "./wrap.ts";

const width = 96;
/** An observation speaks for or against a fault from twice as likely on (ln 2). */
const leastPull = 0.7;

/** For each leading fault what was found against what was to be expected; and what is not yet proved of a board. */
export function whyInWords(worked: WorkedJob, explained: readonly Explanation[], boards: readonly Legs[]): string[] {
  const lines = explained.flatMap((one) => ["", ...argumentsInWords(worked, one)]);
  for (const board of boards) {
    if (board.proved) continue;
    const missing = board.legs.filter(({ seen }) => !seen).map(({ leg }) => leg);
    const text = `${board.says}: not excluded, and not proved. Still to be seen: ${missing.join("; ")}.`;
    lines.push("", ...wrap(text, width, "  "));
  }
  return lines;
}

function argumentsInWords(
  { observations, case: the }: WorkedJob,
  { says, p, observations: points }: Explanation,
): string[] {
  const signs = the.candidates[0]?.machine.signs ?? [];
  const lines = wrap(`${says}: ${oddsInWords(p)}`, width);
  let silent = 0;
  for (const { observation: index, overruled, weight, predicted } of points) {
    const observation = observations[index];
    if (observation === undefined || overruled) continue;
    if (Math.abs(weight) < leastPull) {
      silent++;
      continue;
    }
    const pull = weight > 0 ? "speaks for it" : "speaks against it";
    const text = `${observationInWords(observation, signs)}; with this fault ${predicted}: ${pull}`;
    lines.push(...wrap(text, width, "  - ", "    "));
  }
  if (silent > 0) lines.push(`  - ${silent} more that speak neither for nor against it`);
  return lines;
}
