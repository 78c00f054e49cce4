import type { StockRecord } from "../../../core/shelf/index.ts";
import { shelfText } from "../english-shelf.ts";
import { useApp } from "../shell/app-state.tsx";
import { whenText } from "../shell/when-text.ts";
import { STOCK } from "./use-shelf.ts";

const words = shelfText;
/** So many of the last are shown: who looks for an older one has a copy of everything. */
const LAST = 50;

/** What was put on the shelf by hand and used up by repairs, the newest first; what a hand did is taken back here. */
export function StockHistory({ stock: { stocked, used } }: { readonly stock: StockRecord }) {
  const { ledger } = useApp();
  const lines = [
    ...stocked.map((one) => ({ ...one, isByHand: true, told: putText(one) })),
    ...used.flatMap((one) =>
      one.takes === undefined
        ? []
        : [{ ...one, isByHand: false, told: words.usedBy(one.takes.part.replaceAll("-", " "), one.job) }],
    ),
  ].sort((a, b) => (a.event < b.event ? 1 : -1));
  if (lines.length === 0) return <p>{words.noHistory}</p>;
  return (
    <ol className="ledger">
      {lines.slice(0, LAST).map(({ event, time, told, isByHand, isTakenBack }) => (
        <li key={event} className="paper-line">
          {isTakenBack ? <s>{told}</s> : told}
          <span className="faint">
            <time dateTime={time}>{whenText(time)}</time>
            {isTakenBack && ` · ${words.back}`}
          </span>
          {isByHand && !isTakenBack && (
            <button type="button" className="line-key" onClick={() => ledger.withdraw(STOCK, event)}>
              {words.takeBack(told)}
            </button>
          )}
        </li>
      ))}
    </ol>
  );
}

function putText({ by, says, where, least }: StockRecord["stocked"][number]): string {
  const should = least === undefined || least === 0 ? "" : `, ${words.should(least)}`;
  return `${words.moved(by, says, words.placeWords[where])}${should}`;
}
