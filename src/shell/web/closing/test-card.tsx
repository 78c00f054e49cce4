import { Link } from "wouter";
import type { ClosingView, TestCard } from "../engine/closing-view.ts";
import { text } from "../english.ts";
import { closingText } from "../english-closing.ts";
import type { Write } from "../job/job-screen.tsx";
import { Coverage } from "./coverage.tsx";
import { TestValue } from "./test-value.tsx";

const words = closingText.tests;

interface CardProps {
  readonly card: TestCard;
  readonly view: ClosingView;
  /** Every test before it was made, or could not be. */
  readonly isReached: boolean;
  readonly job: string;
  readonly write: Write;
  readonly takeBack: (place: number) => void;
}

/** One safety test: its result on one line; opened, what to do, what can hurt, the limit, and where its value goes. */
export function TestCardView(props: CardProps) {
  const { card, view } = props;
  const isNext = card.test === view.next;
  const isFailed = card.says === "fail";
  // A failed row is begun again with the look.
  const isAgain = view.verdict === "fail" && card.test === "look";
  const result =
    card.says === "not measured" && card.why === undefined && isNext
      ? words.next
      : card.why === "no spread given"
        ? words.noSpread
        : words.says[card.says];
  const measured = card.measured === undefined ? "" : ` · ${card.measured}`;
  return (
    <details className={isNext || isFailed ? "test here" : "test"} open={isNext || isFailed || isAgain}>
      <summary id={isNext || isFailed ? "step" : undefined}>
        <span className="test-name">{card.name}</span>
        <span>
          <b>{result}</b>
          {measured}
        </span>
      </summary>
      <div className="test-body">
        <Limit card={card} />
        {card.event !== undefined && <Result {...props} />}
        {isFailed ? <Failed {...props} /> : <ToDo {...props} />}
        {card.test === "insulation" && view.coverage !== undefined && <Coverage coverage={view.coverage} />}
      </div>
    </details>
  );
}

function Limit({ card }: { readonly card: TestCard }) {
  if (card.limit === undefined) return null;
  const clause = card.clause === undefined ? "" : ` ${words.clause(card.clause)}`;
  return (
    <p>
      {words.limit}: <b>{card.limit}</b>
      {clause}
      {card.fromMemory !== undefined && ` · ${words.fromMemory[card.fromMemory]}`}
      {card.note !== undefined && <span className="faint"> {card.note}</span>}
    </p>
  );
}

/** What came of it, why, and the way to take it back. */
function Result({ card, takeBack }: CardProps) {
  const { why, inHundred, cannot, instead, event } = card;
  return (
    <>
      {why !== undefined && (
        <p>
          {words.why[why]} {cannot !== undefined && `(${cannot})`}{" "}
          {why === "cannot be made" && (instead === undefined ? words.noInstead : words.instead(instead))}
        </p>
      )}
      {inHundred !== undefined && why === undefined && <p>{words.inHundred(inHundred)}</p>}
      {event !== undefined && (
        <button type="button" className="small-key" onClick={() => takeBack(event)}>
          {words.takeBack}: {card.name}
        </button>
      )}
    </>
  );
}

/** A failed test stops the row: what to do now. */
function Failed({ card, job }: CardProps) {
  return (
    <div className="trouble" role="alert">
      <p>
        <b>{words.failedTitle(card.name)}</b>
      </p>
      <p>{words.stays}</p>
      <p>{card.failed}</p>
      <p>{words.again}</p>
      <Link className="way" href={`/job/${job}/done`}>
        {words.whatWasDone}
      </Link>
    </div>
  );
}

/** The test itself, where it may be made now; what comes before it where not. */
function ToDo({ card, view, isReached, write }: CardProps) {
  const { test, says, isLive } = card;
  const isLook = test === "look";
  if (says === "pass" && !isLook) return null;
  if (says === "pass" && view.verdict !== "fail") return null;
  if (view.verdict === "fail" && !isLook) return <p>{words.stopped}</p>;
  return (
    <>
      <p className="care">{card.care}</p>
      <p>{card.does}</p>
      {!isReached ? null : isLive && !view.mayEnergise ? (
        <p>
          <b>{words.notYet}</b>
        </p>
      ) : isLive && view.energy !== "live" ? (
        <button
          type="button"
          className="big-key"
          disabled={!view.provedDead && view.energy !== "plug out"}
          onClick={() => write({ kind: "energised", body: "RCD lead" })}
        >
          {text.state.energise}
        </button>
      ) : !isLive && view.energy === "live" ? (
        <>
          <p>
            <b>{words.plugOutFirst}</b>
          </p>
          <button
            type="button"
            className="big-key"
            onClick={() => write({ kind: "isolated", body: "two-pole tester" })}
          >
            {text.state.provedNow}
          </button>
        </>
      ) : isLook || test === "function" ? (
        <div className="keys">
          {(["pass", "fail"] as const).map((found) => (
            <button
              key={found}
              type="button"
              className={found === "pass" ? "big-key" : "big-key quiet"}
              onClick={() => write({ kind: "tested", body: { test, found } })}
            >
              {words.found[found]}
            </button>
          ))}
        </div>
      ) : (
        <TestValue test={test} testers={view.testers} write={write} />
      )}
    </>
  );
}
