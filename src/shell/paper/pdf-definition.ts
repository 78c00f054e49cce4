import type { Block, Paper, Table } from "../../core/paper/index.ts";
import { type Drawing, isPicture } from "./drawing.ts";
import { contactLines, envelopeLines, footText, headText } from "./sender-lines.ts";

/** A piece of a document as the PDF library takes it: plain data, the same in a browser. */
export type PdfNode = { readonly [key: string]: unknown };

/** A piece as the PDF library has laid it out: how far down the printed part of its page it begins, and how high that is. */
interface LaidOut {
  readonly headlineLevel?: number;
  readonly startPosition: { readonly verticalRatio: number; readonly pageInnerHeight: number };
}

const RULE = 0.7;
/** Points between the edges of the paper and what is printed: 18 and 20 mm. */
const MARGINS = [51, 57, 51, 62] as const;
const TEXT_COLUMN = 120;
/** Of the address at the head: the name beside it, however long, does not push it out. */
const CONTACT = 170;
/** Points that a heading needs below its top: itself, and the head of a table with one row. */
const HEADED = 66;
/** Points of a signature that was drawn on the glass: the shape of its pad. */
const SIGNATURE = [150, 60] as const;

/** What the PDF library is asked to draw. Its date is the paper's own, so that the same paper gives the same bytes. */
export function pdfDefinition(paper: Paper, { size, logo, signatures }: Drawing): PdfNode {
  const { title, date, from, to, blocks } = paper;
  const foot = footText(paper);
  return {
    pageSize: size,
    pageMargins: [...MARGINS],
    language: "en",
    displayTitle: true,
    info: {
      title: `${title}, ${headText(paper)}`,
      creationDate: new Date(`${date}T00:00:00Z`),
      producer: "Faultwright",
    },
    defaultStyle: { font: "DejaVu", fontSize: 9.5, lineHeight: 1.2 },
    footer: (page: number, pages: number): PdfNode => ({
      margin: [MARGINS[0], 16, MARGINS[2], 0],
      fontSize: 7.5,
      columns: [
        { width: "*", text: foot },
        { width: 70, text: `page ${page} of ${pages}`, alignment: "right" },
      ],
    }),
    // No heading stands alone at the foot of a page.
    pageBreakBefore: ({ headlineLevel, startPosition }: LaidOut): boolean =>
      headlineLevel === 1 && (1 - startPosition.verticalRatio) * startPosition.pageInnerHeight < HEADED,
    content: [
      ...(from === undefined ? [] : [letterhead(from, logo), rule(size)]),
      {
        margin: [0, 12, 0, 14],
        columns: [
          {
            width: "*",
            stack: to === undefined ? [""] : envelopeLines(to, from?.party.country).map((line) => breakable(line)),
          },
          { width: "auto", text: headText(paper), alignment: "right", noWrap: true },
        ],
        columnGap: 20,
      },
      { text: title, fontSize: 17, bold: true, margin: [0, 0, 0, 8] },
      ...blocks.map((block) => blockNode(block, signatures)),
    ],
  };
}

function letterhead(from: NonNullable<Paper["from"]>, logo: string | undefined): PdfNode {
  return {
    columns: [
      ...(logo === undefined
        ? []
        : [isPicture(logo) ? { image: logo, fit: [90, 45] } : { svg: logo, fit: [90, 45], width: 90 }]),
      { width: "*", text: breakable(from.party.name, 18), fontSize: 13, bold: true },
      { width: CONTACT, stack: contactLines(from).map((line) => breakable(line)), alignment: "right", fontSize: 8.5 },
    ],
    columnGap: 16,
  };
}

function rule(size: Drawing["size"]): PdfNode {
  const width = (size === "A4" ? 595.28 : 612) - MARGINS[0] - MARGINS[2];
  return { canvas: [{ type: "line", x1: 0, y1: 0, x2: width, y2: 0, lineWidth: RULE }], margin: [0, 6, 0, 0] };
}

function blockNode(block: Block, drawn: Drawing["signatures"]): PdfNode {
  switch (block.is) {
    case "heading":
      return { text: block.text, fontSize: 11.5, bold: true, margin: [0, 12, 0, 4], headlineLevel: 1 };
    case "paragraph":
      return { text: block.text, bold: block.isStrong === true, margin: [0, 3, 0, 4] };
    case "note":
      return { text: block.text, fontSize: 8, margin: [0, 3, 0, 3] };
    case "facts":
      return {
        margin: [0, 4, 0, 6],
        layout: "noBorders",
        table: {
          widths: [150, "*"],
          dontBreakRows: true,
          body: block.rows.map(([label, value]) => [{ text: label, color: "#333333" }, { text: breakable(value) }]),
        },
      };
    case "list":
      return { ul: block.items.map((text) => ({ text: breakable(text), margin: [0, 0, 0, 2] })), margin: [0, 2, 0, 6] };
    case "table":
      return tableNode(block);
    case "signatures": {
      const svg = drawn?.get(block.drawn ?? "");
      return {
        unbreakable: true,
        margin: [0, svg === undefined ? 34 : 6, 0, 0],
        columns: block.lines.map((text, n) => ({
          stack: [
            ...(svg === undefined
              ? []
              : n === block.lines.length - 1
                ? [{ svg, fit: [...SIGNATURE] }]
                : [{ text: "", margin: [0, SIGNATURE[1], 0, 0], lineHeight: 0 }]),
            { canvas: [{ type: "line", x1: 0, y1: 0, x2: 200, y2: 0, lineWidth: RULE }] },
            { text, fontSize: 8, margin: [0, 3, 0, 0] },
          ],
        })),
        columnGap: 20,
      };
    }
    case "code":
      return {
        unbreakable: true,
        margin: [0, 6, 0, 6],
        columns: [
          { width: "auto", qr: block.payload, fit: 110, eccLevel: "M" },
          { width: "*", text: block.says, margin: [0, 40, 0, 0] },
        ],
        columnGap: 14,
      };
  }
}

function tableNode({ head, rows, sums = 0 }: Table): PdfNode {
  const alignment = (c: number): "right" | "left" => (head[c]?.isFigures === true ? "right" : "left");
  const firstSum = rows.length - sums + 1;
  return {
    margin: [0, 4, 0, 6],
    // What is to be paid stands on one page with what it is the sum of.
    unbreakable: sums > 0,
    table: {
      headerRows: 1,
      keepWithHeaderRows: 1,
      dontBreakRows: true,
      widths: head.map(({ isFigures }, c) => (c === 0 ? "*" : isFigures === true ? "auto" : TEXT_COLUMN)),
      body: [
        head.map(({ says }, c) => ({ text: says, noWrap: c > 0, bold: true, alignment: alignment(c) })),
        ...rows.map((row, r) =>
          row.map((text, c) => ({
            text: head[c]?.isFigures === true ? text.replaceAll(" ", "\u00a0") : breakable(text),
            alignment: alignment(c),
            bold: r + 1 >= firstSum,
          })),
        ),
      ],
    },
    layout: {
      hLineWidth: (line: number): number => (line === 0 ? 0 : line === 1 || (sums > 0 && line === firstSum) ? 1 : 0.3),
      vLineWidth: (): number => 0,
      paddingLeft: (column: number): number => (column === 0 ? 0 : 8),
      paddingRight: (): number => 0,
      paddingTop: (): number => 2.5,
      paddingBottom: (): number => 2.5,
    },
  };
}

/** Lets an endless word be broken, which would run out of a narrow column: a space of no width after so many signs. */
function breakable(text: string, signs = 30): string {
  return text.replace(new RegExp(`(\\S{${signs}})(?=\\S)`, "g"), "$1\u200b");
}
