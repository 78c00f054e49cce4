import type { Paper } from "../../../core/paper/index.ts";
import type { Drawing } from "../../paper/drawing.ts";

export interface PdfCall {
  readonly paper: Paper;
  readonly drawing: Drawing;
}
export type PdfReply =
  | { readonly ok: true; readonly bytes: Uint8Array<ArrayBuffer> }
  | { readonly ok: false; readonly error: string };

/** A paper as a PDF file, drawn in a worker of its own: the screen never waits for it. @throws where it cannot be drawn */
export function drawPdf(paper: Paper, drawing: Drawing): Promise<Blob> {
  const worker = new Worker(new URL("./pdf-worker.ts", import.meta.url), { type: "module" });
  return new Promise<Blob>((resolve, reject) => {
    worker.onmessage = ({ data }: MessageEvent<PdfReply>) => {
      if (data.ok) resolve(new Blob([data.bytes], { type: "application/pdf" }));
      else reject(new Error(data.error));
    };
    worker.onerror = (event) => reject(new Error(event.message));
    const call: PdfCall = { paper, drawing };
    worker.postMessage(call);
  }).finally(() => worker.terminate());
}
