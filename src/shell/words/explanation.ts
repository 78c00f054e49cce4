import type { WorkedJob } from "../../core/ledger/index.ts";
import type { Explanation, Legs } from "../../core/suspect/index.ts";
import { together } from "./list.ts";
import { observationInWords } from "./observation.ts";
import { oddsInWords } from "./odds.ts";
import { width, wrap } from "./wrap.ts";

/** An observation speaks for or against a fault from twice as likely on (ln 2). */
const leastPull = 0.7;

/** For each leading fault what was found against what was to be expected; and what is not yet proved of a board. */
export function whyInWords(worked: WorkedJob, explained: readonly Explanation[], boards: readonly Legs[]): string[] {
  return [
    ...explained.flatMap((one) => ["", ...argumentsInWords(worked, one)]),
    ...boards.filter(({ proved }) => !proved).flatMap((board) => ["", ...wrap(legsInWords(board), width, "  ")]),
  ];
}

/** "control board: not excluded, and not proved (about 3 in 10). Still to be seen: that its output is commanded." */
export function legsInWords({ says, p, legs }: Legs): string {
  const missing = legs.filter(({ seen }) => !seen).map(({ leg }) => legSays[leg]);
  return `${says}: not excluded, and not proved (${oddsInWords(p)}). Still to be seen: ${together(missing)}.`;
}

/** A board is blamed on three things seen, and on nothing less. */
const legSays: Readonly<Record<Legs["legs"][number]["leg"], string>> = {
  "inputs good": "that all it is told is right (door, sensors, supply)",
  "output commanded": "that it means to switch the output on",
  "output missing": "that the output does not come although everything behind it is good",
};

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
