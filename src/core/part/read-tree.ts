import { isAlias, isMap, isScalar, isSeq, LineCounter, parseDocument, type Node as YamlNode } from "yaml";
import { type Checked, IssueList, refuse } from "../issue/index.ts";
import type { Tree, TreeEntry } from "./tree.ts";

/** More than the largest family sheet by a factor of twenty. */
export const MOST_CHARACTERS = 2_000_000;
/** No sheet, kind, job or meter file needs a quarter of this. */
export const MOST_LEVELS = 40;
const MOST_SYNTAX_ISSUES = 20;

/**
 * YAML (or JSON) text as a tree of texts with their line numbers.
 *
 * Every scalar stays text (YAML's failsafe schema), so `NO`, `on`, `1e3`, pin `11` and `0R2` mean what they say.
 * Files that are too long, nested too deep, or that use anchors, aliases or tags are refused, quickly.
 *
 * @param file  the file as the user named it, for issues
 * @source      YAML 1.2.2, section 10.1 (failsafe schema)
 */
export function readTree(text: string, file?: string): Checked<Tree> {
  const where = file === undefined ? {} : { file };
  if (text.length > MOST_CHARACTERS) {
    return refuse({
      code: "tree.too-long",
      severity: "error",
      ...where,
      at: [],
      found: `${text.length} characters`,
      expected: `at most ${MOST_CHARACTERS}`,
      hint: "Check that this is the right file.",
    });
  }
  const tooDeep = (line: number): Checked<never> =>
    refuse({
      code: "tree.too-deep",
      severity: "error",
      ...where,
      line,
      at: [],
      found: `more than ${MOST_LEVELS} levels inside one another`,
      expected: `at most ${MOST_LEVELS}`,
    });
  const deepLine = lineNestedTooDeep(text);
  if (deepLine !== undefined) return tooDeep(deepLine);

  const issues = new IssueList();
  const lines = new LineCounter();
  let root: YamlNode | null;
  try {
    const document = parseDocument(text, {
      schema: "failsafe",
      lineCounter: lines,
      uniqueKeys: false,
      prettyErrors: false,
      logLevel: "error",
    });
    // What slips through the guard above overflows the library's stack, which it reports as an error of syntax.
    if (document.errors.some((error) => error.message.includes("call stack"))) return tooDeep(1);
    for (const error of document.errors.slice(0, MOST_SYNTAX_ISSUES)) {
      const line = lines.linePos(error.pos[0]).line;
      issues.add({
        code: "tree.syntax",
        severity: "error",
        ...where,
        line,
        at: [],
        found: excerpt(text, error.pos[0]),
        expected: "well-formed YAML",
        hint:
          error.code === "MULTIPLE_DOCS"
            ? "Keep one document in a file: take out the line ---."
            : `${error.message.split("\n", 1)[0]}. Put text that holds , ? : # in quotes.`,
      });
    }
    root = document.contents;
  } catch (error) {
    if (error instanceof RangeError) return tooDeep(1);
    throw error;
  }
  if (issues.hasErrors) return { ok: false, issues: issues.all };

  const lineOf = (node: YamlNode | null): number => (node?.range ? lines.linePos(node.range[0]).line : 1);
  const bad = (
    node: YamlNode | null,
    at: readonly (string | number)[],
    code: string,
    found: string,
    expected: string,
  ) => issues.add({ code, severity: "error", ...where, line: lineOf(node), at, found, expected });

  const build = (node: YamlNode | null, at: readonly (string | number)[], fallbackLine: number): Tree => {
    const line = node?.range ? lineOf(node) : fallbackLine;
    if (at.length >= MOST_LEVELS && (isMap(node) || isSeq(node))) {
      bad(node, [], "tree.too-deep", `more than ${MOST_LEVELS} levels`, `at most ${MOST_LEVELS}`);
      return { is: "text", text: "", line };
    }
    if (isAlias(node)) {
      bad(node, at, "tree.alias", `alias *${node.source}`, "the thing itself: anchors and aliases are not read");
      return { is: "text", text: "", line };
    }
    if (node !== null && "anchor" in node && node.anchor !== undefined) {
      bad(node, at, "tree.alias", `anchor &${String(node.anchor)}`, "no anchor: anchors and aliases are not read");
    }
    if (node?.tag !== undefined && !/^(tag:yaml\.org,2002:|!!)(str|map|seq)$|^[!?]$/.test(node.tag)) {
      bad(node, at, "tree.tag", `tag ${node.tag}`, "no tag: everything is read as text");
    }
    if (isMap(node)) {
      const entries = new Map<string, TreeEntry>();
      for (const pair of node.items) {
        const keyNode = pair.key as YamlNode | null;
        const keyLine = keyNode?.range ? lineOf(keyNode) : line;
        if (keyNode !== null && !isScalar(keyNode)) {
          bad(keyNode, at, "tree.key", "a list or map as a key", "a word as a key");
          continue;
        }
        const key = keyNode === null ? "" : String(keyNode.value ?? "");
        if (entries.has(key)) {
          bad(keyNode, [...at, key], "tree.key-twice", `${key} a second time`, `${key} once`);
          continue;
        }
        entries.set(key, { line: keyLine, value: build(pair.value as YamlNode | null, [...at, key], keyLine) });
      }
      return { is: "map", line, entries };
    }
    if (isSeq(node)) {
      return {
        is: "list",
        line,
        items: node.items.map((item, index) => build(item as YamlNode | null, [...at, index], line)),
      };
    }
    return { is: "text", text: isScalar(node) ? String(node.value ?? "") : "", line };
  };
  const tree = build(root, [], 1);
  return issues.conclude(() => tree);
}

/** First line at which brackets, or dashes on one line, nest far deeper than any real file. */
function lineNestedTooDeep(text: string): number | undefined {
  let depth = 0;
  let line = 1;
  let dashes = 0;
  let leading = true;
  for (let i = 0; i < text.length; i++) {
    const c = text.charCodeAt(i);
    if (c === 10) {
      line++;
      dashes = 0;
      leading = true;
    } else if (c === 91 || c === 123) {
      depth++;
      leading = false;
    } else if (c === 93 || c === 125) {
      depth = Math.max(0, depth - 1);
    } else if (leading && (c === 45 || c === 63 || c === 58)) {
      dashes++;
    } else if (c !== 32) {
      leading = false;
    }
    if (depth > 4 * MOST_LEVELS || dashes > 2 * MOST_LEVELS) return line;
  }
  return undefined;
}

function excerpt(text: string, offset: number): string {
  const start = text.lastIndexOf("\n", Math.max(0, offset - 1)) + 1;
  const end = text.indexOf("\n", offset);
  const line = text.slice(start, end === -1 ? undefined : end).trim();
  return line.length > 80 ? `${line.slice(0, 77)}...` : line || "the end of the file";
}
