import { useEffect, useMemo, useRef, useState } from "react";
import type { Bill } from "../../../core/bill/index.ts";
import { writeUbl } from "../../../core/bill/index.ts";
import { sentence } from "../../../core/issue/index.ts";
import type { Paper } from "../../../core/paper/index.ts";
import type { Drawing } from "../../paper/drawing.ts";
import { paperAsHtml } from "../../paper/html-paper.ts";
import { papersText } from "../english-papers.ts";
import { useApp } from "../shell/app-state.tsx";
import { saveFile } from "../shell/save-file.ts";
import { drawPdf } from "./draw-pdf.ts";
import { useSignatures } from "./use-signatures.ts";

const words = papersText;

/** A paper as it will be printed, and the ways to take it along. */
export function PaperSheet({ paper, bill }: { readonly paper: Paper; readonly bill: Bill | undefined }) {
  const { settings } = useApp();
  const { size = "A4", logo } = settings;
  const frame = useRef<HTMLIFrameElement>(null);
  const [height, setHeight] = useState(600);
  const [said, setSaid] = useState("");
  const signatures = useSignatures(paper);
  const drawing = useMemo(
    (): Drawing => ({
      size,
      ...(logo === undefined ? {} : { logo }),
      ...(signatures === undefined ? {} : { signatures }),
    }),
    [size, logo, signatures],
  );
  const html = useMemo(() => paperAsHtml(paper, drawing), [paper, drawing]);
  const name = fileName(paper);

  const fit = () => {
    const inside = frame.current?.contentDocument?.documentElement;
    if (inside !== undefined) setHeight(inside.scrollHeight);
  };
  useEffect(() => {
    addEventListener("resize", fit);
    return () => removeEventListener("resize", fit);
  });
  const savePdf = async () => {
    setSaid(words.making);
    try {
      saveFile(`${name}.pdf`, await drawPdf(paper, drawing));
      setSaid("");
    } catch (error) {
      setSaid(error instanceof Error ? error.message : String(error));
    }
  };
  const saveUbl = () => {
    const written = bill === undefined ? undefined : writeUbl(bill);
    if (written?.ok) saveFile(`${name}.xml`, new Blob([written.value], { type: "application/xml" }));
    setSaid(written?.ok === false ? written.issues.map(sentence).join("\n") : "");
  };
  return (
    <>
      <iframe
        ref={frame}
        className="paper-sheet"
        title={words.paperSays(paper.title)}
        srcDoc={html}
        sandbox="allow-same-origin allow-modals"
        style={{ height }}
        onLoad={fit}
      />
      <div className="keys">
        <button type="button" className="big-key quiet low" onClick={() => frame.current?.contentWindow?.print()}>
          {words.print}
        </button>
        <button type="button" className="big-key quiet low" onClick={savePdf}>
          {words.savePdf}
        </button>
        <button
          type="button"
          className="big-key quiet low"
          onClick={() => saveFile(`${name}.html`, new Blob([html], { type: "text/html" }))}
        >
          {words.saveHtml}
        </button>
        {bill !== undefined && bill.kind !== "quote" && (
          <button type="button" className="big-key quiet low" onClick={saveUbl}>
            {words.saveUbl}
          </button>
        )}
      </div>
      <pre className="said" role="status">
        {said}
      </pre>
    </>
  );
}

/** "invoice-F3A-0007": safe in every folder. */
function fileName({ kind, number, date }: Paper): string {
  return `${kind}-${number ?? date}`.replaceAll(/[^A-Za-z0-9-]+/g, "-");
}
