import type { Belief } from "../../core/suspect/index.ts";
import { oddsInWords } from "./odds.ts";
import { wrap } from "./wrap.ts";

const width = 96;
/** Faults told one by one; the rest is counted. */
const mostTold = 6;
const leastTold = 0.03;

/** Possible faults, likeliest first, each with its ways of failing; the unlikely ones are only counted. */
export function faultsInWords(belief: Belief): string[] {
  const told = belief.parts.filter(({ p }) => p >= leastTold).slice(0, mostTold);
  const lines = told.flatMap((part) => {
    const ways = part.modes.filter(({ p }) => p >= Math.max(leastTold, 0.15 * part.p)).slice(0, 3);
    const names = ways.map(({ says }) => says).join("; ") || part.says;
    return wrap(names, width, `  ${oddsInWords(part.p).padEnd(20)} `, " ".repeat(23));
  });
  const others = belief.parts.length - told.length;
  if (others > 0) lines.push(`  ${"unlikely".padEnd(20)} ${others} others`);
  if (belief.nothingWrong >= leastTold)
    lines.push(`  ${oddsInWords(belief.nothingWrong).padEnd(20)} nothing is wrong with the machine`);
  if (belief.notOnThisSheet >= leastTold) {
    lines.push(`  ${oddsInWords(belief.notOnThisSheet).padEnd(20)} something I do not know about this machine`);
  }
  if (belief.severalFaults >= 0.1)
    lines.push(`  That more than one of these is at fault: ${oddsInWords(belief.severalFaults)}.`);
  return lines;
}
