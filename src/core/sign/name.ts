import type { Mode } from "../fault/index.ts";
import type { Machine } from "../sheet/index.ts";

/** Patterns and names that were made once: a sheet has a few hundred names, and each is asked of every mode. */
const patterns = new Map<string, RegExp>();
const names = new WeakMap<Mode, readonly string[]>();

/**
 * Does a name in a sheet (of a table, a link, a why-open) mean this mode? Names are a cause id, a part id, or `part/mode`;
 * `*` stands for any run of letters. A group of joints is met by the name of any joint in it.
 */
export function meansMode(name: string, mode: Mode, machine: Machine): boolean {
  if (!name.includes("*")) return namesOf(mode, machine).includes(name);
  const pattern = patternOf(name);
  return namesOf(mode, machine).some((own) => pattern.test(own));
}

/** All names a sheet may use for a mode: its id, and for each part it may sit in, the part and `part/mode`. */
function namesOf(mode: Mode, machine: Machine): readonly string[] {
  let known = names.get(mode);
  if (known === undefined) {
    const ending = mode.id.slice(mode.id.lastIndexOf("/") + 1);
    const parts = mode.parts.flatMap((part) => machine.parts[part]?.id ?? []);
    known = [mode.id, ...parts, ...parts.map((part) => `${part}/${ending}`)];
    names.set(mode, known);
  }
  return known;
}

function patternOf(name: string): RegExp {
  let pattern = patterns.get(name);
  if (pattern === undefined) {
    const literal = name.split("*").map((piece) => piece.replace(/[.+?^${}()|[\]\\]/g, "\\$&"));
    pattern = new RegExp(`^${literal.join(".*")}$`);
    patterns.set(name, pattern);
  }
  return pattern;
}
