import type { Mode } from "../fault/index.ts";
import type { Machine } from "../sheet/index.ts";

/**
 * Does a name in a sheet (of a table, a link, a why-open) mean this mode? Names are a cause id, a part id, or `part/mode`;
 * `*` stands for any run of letters. A group of joints is met by the name of any joint in it.
 */
export function meansMode(name: string, mode: Mode, machine: Machine): boolean {
  const pattern = patternOf(name);
  return namesOf(mode, machine).some((own) => pattern.test(own));
}

/** All names a sheet may use for a mode: its id, and for each part it may sit in, the part and `part/mode`. */
function namesOf(mode: Mode, machine: Machine): readonly string[] {
  const ending = mode.id.slice(mode.id.lastIndexOf("/") + 1);
  const parts = mode.parts.flatMap((part) => machine.parts[part]?.id ?? []);
  return [mode.id, ...parts, ...parts.map((part) => `${part}/${ending}`)];
}

function patternOf(name: string): RegExp {
  const literal = name.split("*").map((piece) => piece.replace(/[.+?^${}()|[\]\\]/g, "\\$&"));
  return new RegExp(`^${literal.join(".*")}$`);
}
