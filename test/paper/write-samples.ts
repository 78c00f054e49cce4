// Writes every sample paper: as PDF for docs/papers (the report as HTML too), as text for test/paper/golden. `npm run papers`;
// look at them, and read the diff of the texts, before you commit.
import { mkdirSync, writeFileSync } from "node:fs";
import { paperAsHtml } from "../../src/shell/paper/html-paper.ts";
import { paperAsPdf } from "../../src/shell/paper/pdf-paper.ts";
import { paperAsText } from "../../src/shell/paper/text-paper.ts";
import { SIGNATURES, samplePapers } from "./samples.ts";

const folder = "docs/papers";
const golden = "test/paper/golden";
const logo = `<svg xmlns="http://www.w3.org/2000/svg" width="90" height="45" viewBox="0 0 90 45"><path d="M4 30 q10 -8 20 0 t20 0 t20 0 t20 0" fill="none" stroke="#000" stroke-width="2.5"/><path d="M18 22 h52 l-8 -10 h-36 z" fill="none" stroke="#000" stroke-width="2.5"/></svg>`;

mkdirSync(folder, { recursive: true });
mkdirSync(golden, { recursive: true });
for (const [name, paper] of samplePapers()) {
  const size = name === "invoice-long-pounds" ? "LETTER" : "A4";
  const drawing = { size, signatures: SIGNATURES, ...(name.startsWith("report") ? {} : { logo }) } as const;
  writeFileSync(`${folder}/${name}.pdf`, await paperAsPdf(paper, drawing));
  writeFileSync(`${golden}/${name}.txt`, `${paperAsText(paper)}\n`);
  if (name === "report") writeFileSync(`${folder}/${name}.html`, paperAsHtml(paper, drawing));
}
