import type { Outlook } from "../../../core/plan/index.ts";
import { minutesInWords, oddsInWords } from "../../words/odds.ts";
import type { JobView } from "../engine/protocol.ts";
import { text } from "../english.ts";

/** Money said aloud is rounded: nobody means the last coin. */
const roundTo = 5;

/** Chance of one visit, price range and parts to load, as sentences to say or to act on. */
export function OutlookSummary({ outlook, view }: { readonly outlook: Outlook; readonly view: JobView }) {
  const { oneVisit, oneVisitLoaded, price, load } = outlook;
  const { currency, perHour, timeStopMinutes } = view;
  const words = text.telephone;
  return (
    <section>
      <h2>{words.before}</h2>
      <p>
        {words.oneVisit}: {oddsInWords(oneVisit)}
        {load.length > 0 && (
          <>
            {"; "}
            {words.withLoaded}: {oddsInWords(oneVisitLoaded)}
          </>
        )}
        .
      </p>
      {price !== undefined && (
        <p>
          {words.price}: {words.range(round(price.lo), round(price.hi), currency)}.{" "}
          {words.finding(Math.round(perHour), currency, minutesInWords(timeStopMinutes))}
        </p>
      )}
      {load.length > 0 && (
        <>
          <h3>{words.load}</h3>
          <ul>
            {load.map(({ says, p, price: each }) => (
              <li key={says}>
                {says} ({words.wanted} {oddsInWords(p)}, {text.step.part} {Math.round(each)} {currency})
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

function round(money: number): number {
  return Math.round(money / roundTo) * roundTo;
}
