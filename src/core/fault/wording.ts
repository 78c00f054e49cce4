import type { Part } from "../sheet/index.ts";

/**
 * A fault as a technician says it: "motor relay: contact burnt". Of the mode's own name only what helps is kept: the
 * mark of a victim goes, so does the number of a thing there is only one of, and words that would be said twice.
 */
export function faultSays(part: Part, mode: string): string {
  const names = part.instance.modes.map(({ name }) => name);
  const plain = withoutLoneNumber(mode, names).replace(/ \(victim\)$/, "");
  return `${part.says}: ${withoutEcho(plain, part.says)}`;
}

/** "contact1 burnt" → "contact burnt" where there is no contact2; else "contact 1 burnt". */
function withoutLoneNumber(mode: string, names: readonly string[]): string {
  const found = /^(.*?) ?(\d+)\b(.*)$/.exec(mode);
  if (found === null) return mode;
  const [, before, number, after] = found;
  const alike = names.some((name) => {
    const other = /^(.*?) ?(\d+)\b(.*)$/.exec(name);
    return other !== null && other[1] === before && other[3] === after && other[2] !== number;
  });
  return alike ? `${before} ${number}${after}` : `${before}${after}`;
}

/** "mains supply: supply off" → "mains supply: off". */
function withoutEcho(mode: string, part: string): string {
  const first = mode.slice(0, Math.max(0, mode.indexOf(" ")));
  return part.split(" ").includes(first) ? mode.slice(first.length + 1) : mode;
}
