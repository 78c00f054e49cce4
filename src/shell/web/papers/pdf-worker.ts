import regular from "dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf?url";
import bold from "dejavu-fonts-ttf/ttf/DejaVuSansCondensed-Bold.ttf?url";
import maker from "pdfmake";
import { pdfDefinition } from "../../paper/pdf-definition.ts";
import type { PdfCall, PdfReply } from "./draw-pdf.ts";

self.onmessage = async ({ data: { paper, drawing } }: MessageEvent<PdfCall>) => {
  let reply: PdfReply;
  try {
    await Promise.all([keepFont("regular", regular), keepFont("bold", bold)]);
    maker.setFonts({ DejaVu: { normal: "regular", bold: "bold", italics: "regular", bolditalics: "bold" } });
    maker.setUrlAccessPolicy(() => false);
    const bytes = await maker.createPdf(pdfDefinition(paper, drawing)).getBuffer();
    reply = { ok: true, bytes: new Uint8Array(bytes) };
  } catch (error) {
    reply = { ok: false, error: error instanceof Error ? error.message : String(error) };
  }
  self.postMessage(reply);
};

/** Puts a font where the library looks for files: the same that a PDF is drawn with outside the browser. */
async function keepFont(name: string, address: string): Promise<void> {
  const answer = await fetch(address);
  if (!answer.ok) throw new Error(`${address}: ${answer.status}`);
  maker.virtualfs.writeFileSync(name, new Uint8Array(await answer.arrayBuffer()));
}
