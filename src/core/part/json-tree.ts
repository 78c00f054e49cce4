import { type Checked, refuse } from "../issue/index.ts";
import type { Tree, TreeEntry } from "./tree.ts";

/** A tree as JSON text, every scalar in quotes, maps in their own order: what `readTree` of this file reads again. */
export function jsonOf(tree: Tree): string {
  if (tree.is === "text") return JSON.stringify(tree.text);
  if (tree.is === "list") return `[${tree.items.map(jsonOf).join(",")}]`;
  return `{${[...tree.entries].map(([key, { value }]) => `${JSON.stringify(key)}:${jsonOf(value)}`).join(",")}}`;
}

/**
 * JSON text as a tree of texts. Stands in for the reader of YAML where every file was turned into JSON beforehand, so that
 * no YAML library need be loaded. Unlike `JSON.parse` it keeps numbers as they are written and keys in their order.
 *
 * @returns the tree; refused where the text is no JSON
 * @source  RFC 8259
 */
export function readTree(text: string, file?: string): Checked<Tree> {
  const tokens = text.matchAll(TOKEN);
  let line = 1;
  const next = (): string => {
    const [, space = "", token = ""] = tokens.next().value ?? [];
    for (const character of space) if (character === "\n") line++;
    return token;
  };
  const each = (close: string, take: (first: string) => void): void => {
    for (let token = next(); token !== close; ) {
      take(token);
      token = next();
      if (token === close) return;
      if (token !== ",") throw new SyntaxError("no comma");
      token = next();
      if (token === close) throw new SyntaxError("nothing after the comma");
    }
  };
  const value = (token: string): Tree => {
    const at = line;
    if (token === "[") {
      const items: Tree[] = [];
      each("]", (first) => items.push(value(first)));
      return { is: "list", line: at, items };
    }
    if (token === "{") {
      const entries = new Map<string, TreeEntry>();
      each("}", (first) => {
        const key = String(JSON.parse(first));
        const keyLine = line;
        if (next() !== ":") throw new SyntaxError("no value");
        entries.set(key, { line: keyLine, value: value(next()) });
      });
      return { is: "map", line: at, entries };
    }
    const scalar: unknown = JSON.parse(token);
    return { is: "text", line: at, text: typeof scalar === "string" ? scalar : token };
  };
  try {
    const tree = value(next());
    if (next() === "") return { ok: true, value: tree, warnings: [] };
  } catch (error) {
    if (!(error instanceof SyntaxError || error instanceof RangeError)) throw error;
  }
  return refuse({
    code: "tree.syntax",
    severity: "error",
    ...(file === undefined ? {} : { file }),
    line,
    at: [],
    found: text.slice(0, 60),
    expected: "well-formed JSON",
  });
}

/** White space, and then a mark, a string, or a word such as a number. */
const TOKEN = /(\s*)([{}[\],:]|"(?:[^"\\]|\\.)*"|[^\s{}[\],:"]+)/gy;
