import { useEffect, useState } from "react";
import { legsInWords } from "../../words/explanation.ts";
import { oddsInWords } from "../../words/odds.ts";
import { askEngine } from "../engine/client.ts";
import { text } from "../english.ts";
import type { PageProps } from "../job/job-screen.tsx";
import { OddsDots } from "./odds-dots.tsx";

/** Faults told one by one; the rest is counted. */
const leastTold = 0.03;
/** An observation speaks for or against from twice as likely on (ln 2). */
const leastPull = 0.7;

/** Possible faults, likeliest first; each opens to what was expected and what was found, so that one can argue with it. */
export function FaultsPage({ job }: PageProps) {
  const { worst } = job.view;
  const belief = job.odds ?? job.view.belief;
  const reasons = useTold(askReasons, job.text, job.record.id);
  const boards = useTold(askBoards, job.text, job.record.id);
  const words = text.faults;
  const told = belief.parts.filter(({ p }) => p >= leastTold);
  const others = belief.parts.length - told.length;
  return (
    <>
      <h1>{text.tabs.faults}</h1>
      {worst !== undefined && (
        <p className="trouble">
          {words.worst} {worst}. {words.recheck}
        </p>
      )}
      <ol className="ledger">
        {told.map((part) => {
          const mine = reasons.filter(({ mode }) => part.modes.some((one) => one.mode === mode));
          return (
            <li key={part.part}>
              <details className="fault-line">
                <summary>
                  <span className="fault-name">{part.says}</span>
                  <OddsDots p={part.p} />
                </summary>
                <ul>
                  {part.modes
                    .filter(({ p }) => p >= 0.01)
                    .map((mode) => (
                      <li key={mode.mode}>
                        {mode.says}: {oddsInWords(mode.p)}
                      </li>
                    ))}
                </ul>
                {mine.map((reason) => (
                  <div key={reason.mode}>
                    <h3>{reason.says}</h3>
                    <ul>
                      {reason.seen
                        .filter(({ weight }) => Math.abs(weight) >= leastPull)
                        .map((point) => (
                          <li key={point.says}>
                            {point.says}; {words.expected} {point.predicted}:{" "}
                            {point.weight > 0 ? words.speaksFor : words.speaksAgainst}
                          </li>
                        ))}
                    </ul>
                  </div>
                ))}
              </details>
            </li>
          );
        })}
        {belief.nothingWrong >= leastTold && <Plain says={words.nothingWrong} p={belief.nothingWrong} />}
        {belief.notOnThisSheet >= leastTold && <Plain says={words.unknown} p={belief.notOnThisSheet} />}
      </ol>
      {others > 0 && <p className="faint">{words.others(others)}</p>}
      {belief.severalFaults >= 0.1 && (
        <p>
          {words.several} {oddsInWords(belief.severalFaults)}.
        </p>
      )}
      {boards
        .filter(({ proved }) => !proved)
        .map((board) => (
          <p key={board.assembly}>{legsInWords(board)}</p>
        ))}
    </>
  );
}

/** What speaks for and against the likeliest faults. */
const askReasons = (written: string, id: string) => askEngine({ do: "reasons", text: written }, `${id} reasons`);
/** What is still to be seen before a board is blamed. */
const askBoards = (written: string, id: string) => askEngine({ do: "boards", text: written }, `${id} boards`);

/** What the engine tells of a job; nothing until it is worked out. */
function useTold<T>(
  ask: (written: string, id: string) => Promise<readonly T[]>,
  written: string,
  id: string,
): readonly T[] {
  const [told, setTold] = useState<readonly T[]>([]);
  useEffect(() => {
    let current = true;
    ask(written, id).then(
      (answer) => {
        if (current) setTold(answer);
      },
      () => undefined,
    );
    return () => {
      current = false;
    };
  }, [ask, written, id]);
  return told;
}

function Plain({ says, p }: { readonly says: string; readonly p: number }) {
  return (
    <li className="fault-line plain">
      <span className="fault-name">{says}</span>
      <OddsDots p={p} />
    </li>
  );
}
