import type { Cursor } from "./cursor.ts";
import { didYouMean } from "./nearest.ts";

/** `all`, a name, or a name with `*` for anything. */
export function matcherOf(pattern: string): (name: string) => boolean {
  if (pattern === "all" || pattern === "*") return () => true;
  if (!pattern.includes("*")) return (name) => name === pattern;
  const literal = pattern.split("*").map((piece) => piece.replace(/[.+?^${}()|[\]\\]/g, "\\$&"));
  const whole = new RegExp(`^${literal.join(".*")}$`);
  return (name) => whole.test(name);
}

/**
 * Every pattern of a kind means something, whatever its templates are counted to: the keys of `does:` that hold a `*`,
 * `for:` of the remedies, the keys of `looks:`. Compared with the names as written, templates and all.
 */
export function checkPatterns(root: Cursor): void {
  const keysOf = (at: Cursor | undefined): readonly string[] => (at?.isMap ? at.entries().map(([key]) => key) : []);
  const elements = keysOf(root.field("elements"));
  const modes = keysOf(root.field("modes"));
  const check = (pattern: string, at: Cursor, names: readonly string[], expected: string): void => {
    const matches = matcherOf(pattern);
    if (names.length === 0 || names.some((name) => matches(name) || matches(name.replace(/<[^>]*>/g, "1")))) return;
    at.refuse("part.kind.pattern", expected, didYouMean(pattern, names), `"${pattern}"`);
  };
  for (const [, mode] of root.field("modes")?.entries() ?? []) {
    for (const key of keysOf(mode.field("does"))) {
      if (key.includes("*")) check(key, mode, elements, "the name of an element");
    }
  }
  for (const [, remedy] of root.field("remedies")?.entries() ?? []) {
    const cures = remedy.field("for");
    for (const pattern of cures?.words() ?? []) check(pattern, cures ?? remedy, modes, "the name of a mode, or all");
  }
  for (const [pattern, look] of root.field("looks")?.entries() ?? []) check(pattern, look, modes, "the name of a mode");
}
