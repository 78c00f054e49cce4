import type { Block, Paper, Table } from "../../core/paper/index.ts";
import { wrap } from "../words/wrap.ts";
import { contactLines, envelopeLines, footText, headText } from "./sender-lines.ts";

const WIDTH = 80;

/** A paper as plain text: for a terminal, for a mail without pictures. */
export function paperAsText(paper: Paper): string {
  const { from, to, title, blocks } = paper;
  return [
    ...(from === undefined ? [] : [from.party.name, ...contactLines(from), ""]),
    ...(to === undefined ? [] : [...envelopeLines(to, from?.party.country), ""]),
    title,
    headText(paper),
    ...blocks.flatMap((block) => ["", ...blockLines(block)]),
    ...(footText(paper) === "" ? [] : ["", ...wrap(footText(paper), WIDTH)]),
  ]
    .map((line) => line.trimEnd())
    .join("\n");
}

function blockLines(block: Block): readonly string[] {
  switch (block.is) {
    case "heading":
      return [block.text, "-".repeat(Math.min(WIDTH, block.text.length))];
    case "paragraph":
      return wrap(block.text, WIDTH);
    case "note":
      return wrap(block.text, WIDTH, "(", " ").map((line, n, all) => (n === all.length - 1 ? `${line})` : line));
    case "facts":
      return block.rows.flatMap(([label, value]) => wrap(value, WIDTH, `${label}: `, "    "));
    case "list":
      return block.items.flatMap((item) => wrap(item, WIDTH, "- ", "  "));
    case "table":
      return tableLines(block);
    case "signatures":
      return block.lines.flatMap((line) => ["", "", "_".repeat(40), line]);
    case "code":
      return [block.says, ...block.payload.split("\n").map((line) => `    ${line}`)];
  }
}

/** Columns side by side where they fit; else a row of the table is a few lines, each with its column's name. */
function tableLines({ head, rows, sums = 0 }: Table): readonly string[] {
  const widths = head.map(({ says }, c) => Math.max(says.length, ...rows.map((row) => (row[c] ?? "").length)));
  const others = widths.slice(1).reduce((sum, one) => sum + one + 2, 0);
  const first = Math.min(widths[0] ?? 0, WIDTH - others);
  if (first < 20)
    return rows.flatMap((row) => [
      ...wrap(row[0] ?? "", WIDTH, "- ", "  "),
      ...head.slice(1).flatMap(({ says }, c) => wrap(row[c + 1] ?? "", WIDTH, `    ${says}: `, "      ")),
    ]);
  const line = (cells: readonly string[]): string[] => {
    const [lead = "", ...more] = wrap(cells[0] ?? "", first);
    const rest = widths.slice(1).map((width, c) => {
      const cell = cells[c + 1] ?? "";
      return head[c + 1]?.isFigures === true ? cell.padStart(width) : cell.padEnd(width);
    });
    return [[lead.padEnd(first), ...rest].join("  "), ...more];
  };
  const rule = "-".repeat(Math.min(WIDTH, first + others));
  const body = rows.map(line);
  const before = body.slice(0, body.length - sums).flat();
  const summed = sums === 0 ? [] : [rule, ...body.slice(body.length - sums).flat()];
  return [...line(head.map(({ says }) => says)), rule, ...before, ...summed];
}
