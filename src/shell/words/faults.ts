import type { Belief } from "../../core/suspect/index.ts";
import { alternatives } from "./list.ts";
import { oddsInWords } from "./odds.ts";
import { width, wrap } from "./wrap.ts";

/** Faults told one by one; the rest is counted. */
const mostTold = 6;
const leastTold = 0.03;
/** Ways of failing told of one part, and the share of its odds from which they are. */
const mostWays = 3;
const leastWay = 0.15;

/**
 * Possible faults, likeliest first, each part once with its ways of failing behind it; the unlikely ones are only counted.
 *
 * @param mended  something was mended in this job: a good machine is then one that is in order again
 */
export function faultsInWords(belief: Belief, mended = false): string[] {
  const told = belief.parts.filter(({ p }) => p >= leastTold).slice(0, mostTold);
  const rows: { readonly p: number; readonly says: string }[] = told.map((part) => ({
    p: part.p,
    says: partInWords(part),
  }));
  if (belief.nothingWrong >= leastTold) {
    rows.push({ p: belief.nothingWrong, says: mended ? "in order again" : "nothing is wrong with the machine" });
  }
  if (belief.notOnThisSheet >= leastTold) {
    rows.push({ p: belief.notOnThisSheet, says: "something I do not know about this machine" });
  }
  const lines = rows
    .sort((a, b) => b.p - a.p)
    .flatMap(({ p, says }) => wrap(says, width, `  ${oddsInWords(p).padEnd(20)} `, " ".repeat(23)));
  const others = belief.parts.length - told.length;
  if (others > 0) lines.push(`  ${"unlikely".padEnd(20)} ${others} other${others === 1 ? "" : "s"}`);
  if (belief.severalFaults >= 0.1)
    lines.push(`  More than one of these at fault: ${oddsInWords(belief.severalFaults)}.`);
  return lines;
}

/** "heater relay: contact open, contact burnt or coil open". */
function partInWords(part: Belief["parts"][number]): string {
  const ways = part.modes.filter(({ p }) => p >= Math.max(leastTold, leastWay * part.p)).slice(0, mostWays);
  const head = `${part.says}: `;
  // A cause that has but one way to be is called like its only mode.
  const names = ways.filter(({ says }) => says !== part.says).map(({ says }) => wayInWords(says, head));
  return names.length === 0 ? part.says : `${head}${alternatives(names)}`;
}

function wayInWords(says: string, head: string): string {
  return says.startsWith(head) ? says.slice(head.length) : says;
}
