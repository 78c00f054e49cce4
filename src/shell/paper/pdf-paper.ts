import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import maker from "pdfmake";
import type { Paper } from "../../core/paper/index.ts";
import type { Drawing } from "./drawing.ts";
import { pdfDefinition } from "./pdf-definition.ts";

/** Holds every sign that a paper uses (`test/paper`); its licence lets it be embedded. */
const REGULAR = "DejaVuSansCondensed.ttf";
const BOLD = "DejaVuSansCondensed-Bold.ttf";

/** A paper as a PDF file: its text can be selected and searched. The same paper gives the same bytes. */
export async function paperAsPdf(paper: Paper, drawing: Drawing): Promise<Uint8Array> {
  const [regular, bold] = fontFiles();
  maker.setFonts({ DejaVu: { normal: regular, bold, italics: regular, bolditalics: bold } });
  // Nothing else is opened, and nothing is fetched.
  maker.setLocalAccessPolicy((path) => path === regular || path === bold);
  maker.setUrlAccessPolicy(() => false);
  return await maker.createPdf(pdfDefinition(paper, drawing)).getBuffer();
}

/** Where the two fonts lie. */
export function fontFiles(): readonly [regular: string, bold: string] {
  const folder = join(dirname(createRequire(import.meta.url).resolve("dejavu-fonts-ttf/package.json")), "ttf");
  return [join(folder, REGULAR), join(folder, BOLD)];
}
