import { renderSVG } from "uqr";
import type { Block, Paper, Table } from "../../core/paper/index.ts";
import { type Drawing, isPicture } from "./drawing.ts";
import { contactLines, envelopeLines, footText, headText } from "./sender-lines.ts";

/** A paper as one HTML file that asks for nothing else: for e-mail, and to be printed from a browser. */
export function paperAsHtml(paper: Paper, { size, logo, signatures }: Drawing): string {
  const { from, to, title, blocks } = paper;
  const head =
    from === undefined
      ? ""
      : `<header>${logo === undefined ? "" : `<img alt="" src="${asText(isPicture(logo) ? logo : svgAddress(logo))}">`}<p class="name">${asText(from.party.name)}</p><address>${lines(contactLines(from))}</address></header>`;
  const address =
    to === undefined ? "" : `<address class="to">${lines(envelopeLines(to, from?.party.country))}</address>`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${asText(title)}</title>
<style>${STYLE.replace("SIZE", size === "A4" ? "A4" : "letter")}</style>
</head>
<body>
${head}
${address}
<main>
<h1>${asText(title)}</h1>
<p class="head">${asText(headText(paper))}</p>
${blocks.map((block) => blockHtml(block, signatures)).join("\n")}
</main>
<footer>${asText(footText(paper))}</footer>
</body>
</html>
`;
}

const STYLE = `
@page { size: SIZE; margin: 20mm 18mm; }
body { font: 15px/1.45 "DejaVu Sans", Verdana, sans-serif; color: #000; background: #fff; max-width: 46em; margin: 2em auto; padding: 0 1em; overflow-wrap: anywhere; }
header { border-bottom: 1px solid #000; padding-bottom: .6em; margin-bottom: 1.6em; }
header img { height: 3em; }
.name { font-weight: bold; font-size: 1.2em; margin: 0; }
address { font-style: normal; }
.to { margin-bottom: 2em; }
h1 { font-size: 1.5em; margin: 0; }
h2 { font-size: 1.1em; margin: 1.6em 0 .4em; break-after: avoid; }
.head { margin: 0 0 1.2em; }
table { border-collapse: collapse; width: 100%; margin: .6em 0; }
th { text-align: left; border-bottom: 1.5px solid #000; }
th.figures { white-space: normal; }
th, td { padding: .25em .6em .25em 0; vertical-align: top; overflow-wrap: normal; }
td { border-bottom: .5px solid #999; }
tr { break-inside: avoid; }
.figures { text-align: right; padding-right: .6em; white-space: nowrap; font-variant-numeric: tabular-nums; }
.sum td { font-weight: bold; border-top: 1.5px solid #000; }
dl { display: grid; grid-template-columns: fit-content(45%) minmax(0, 1fr); gap: .2em 1em; }
dt { font-weight: normal; color: #333; }
dd { margin: 0; }
.note { font-size: .85em; color: #333; }
.signatures { display: flex; gap: 2em; margin-top: 2em; break-inside: avoid; align-items: end; }
.signatures p { flex: 1; margin: 0; padding-top: 2em; }
.signatures img { display: block; height: 5em; }
.signatures span { display: block; border-top: 1px solid #000; padding-top: .2em; }
.code { break-inside: avoid; margin: 1em 0; }
.code svg { width: 9em; height: 9em; display: block; }
footer { margin-top: 3em; border-top: 1px solid #000; font-size: .8em; }
`;

function blockHtml(block: Block, drawn: Drawing["signatures"]): string {
  switch (block.is) {
    case "heading":
      return `<h2>${asText(block.text)}</h2>`;
    case "paragraph":
      return block.isStrong === true ? `<p><strong>${asText(block.text)}</strong></p>` : `<p>${asText(block.text)}</p>`;
    case "note":
      return `<p class="note">${asText(block.text)}</p>`;
    case "facts":
      return `<dl>${block.rows.map(([label, value]) => `<dt>${asText(label)}</dt><dd>${asText(value)}</dd>`).join("")}</dl>`;
    case "list":
      return `<ul>${block.items.map((item) => `<li>${asText(item)}</li>`).join("")}</ul>`;
    case "table":
      return tableHtml(block);
    case "signatures":
      return `<div class="signatures">${block.lines.map((line, n) => `<p>${n === block.lines.length - 1 ? signature(drawn?.get(block.drawn ?? "")) : ""}<span>${asText(line)}</span></p>`).join("")}</div>`;
    case "code":
      return `<figure class="code">${renderSVG(block.payload, { ecc: "M" })}<figcaption>${asText(block.says)}</figcaption></figure>`;
  }
}

function signature(svg: string | undefined): string {
  return svg === undefined ? "" : `<img alt="signature" src="${asText(svgAddress(svg))}">`;
}

function svgAddress(svg: string): string {
  return `data:image/svg+xml,${encodeURIComponent(svg)}`;
}

function tableHtml({ head, rows, sums = 0 }: Table): string {
  const cell = (tag: "td" | "th", text: string, c: number): string =>
    `<${tag}${head[c]?.isFigures === true ? ' class="figures"' : ""}${tag === "th" ? ' scope="col"' : ""}>${asText(text)}</${tag}>`;
  const body = rows.map(
    (row, r) =>
      `<tr${r >= rows.length - sums ? ' class="sum"' : ""}>${row.map((text, c) => cell("td", text, c)).join("")}</tr>`,
  );
  return `<table><thead><tr>${head.map(({ says }, c) => cell("th", says, c)).join("")}</tr></thead><tbody>${body.join("")}</tbody></table>`;
}

function lines(texts: readonly string[]): string {
  return texts.map(asText).join("<br>");
}

function asText(text: string): string {
  return text.replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);
}
