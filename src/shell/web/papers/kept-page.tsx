import { useEffect, useState } from "react";
import { Link } from "wouter";
import { dayText } from "../../../core/day/index.ts";
import { askEngine } from "../engine/client.ts";
import type { PapersAnswers } from "../engine/papers-protocol.ts";
import { papersText } from "../english-papers.ts";
import { Troubles } from "../shell/troubles.tsx";
import { PaperSheet } from "./paper-sheet.tsx";
import { kindSays } from "./papers-list.tsx";
import type { PapersProps } from "./papers-screen.tsx";

const words = papersText;

/** A paper that was handed over, as it was handed over. */
export function KeptPage({ id, papers, event }: PapersProps & { readonly event: string }) {
  const place = papers.ids.indexOf(event);
  const issued = papers.account.issued.find((one) => one.event === `e${place + 1}`);
  const content = issued?.content;
  const [shown, setShown] = useState<PapersAnswers["kept paper"]>();
  // biome-ignore lint/correctness/useExhaustiveDependencies: what was handed over never changes; its content tells it apart
  useEffect(() => {
    if (issued === undefined) return;
    let current = true;
    askEngine({ do: "kept paper", issued }).then(
      (answer) => current && setShown(answer),
      (error: Error) => current && setShown({ ok: false, issues: [error.message] }),
    );
    return () => {
      current = false;
    };
  }, [content]);
  if (issued === undefined) return <p className="trouble">{words.gone}</p>;
  return (
    <>
      <h1>
        {kindSays(issued.paper)} <span className="number">{issued.number}</span>
      </h1>
      <p>
        <b>{words.given(dayText(issued.date))}</b>
      </p>
      {shown?.ok === false && <Troubles issues={shown.issues} />}
      {shown?.ok === true && <PaperSheet paper={shown.paper} bill={shown.bill} />}
      {issued.paper === "invoice" && (
        <Link className="big-key" href={`/papers/${id}/pay`}>
          {words.pay}
        </Link>
      )}
      {issued.hash !== undefined && <p className="seal faint">{words.seal(issued.hash)}</p>}
    </>
  );
}
