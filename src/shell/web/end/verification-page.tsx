import { useState } from "react";
import { Link } from "wouter";
import { type WrittenEvent, writtenAnswer } from "../../../core/ledger/index.ts";
import type { VerificationItem } from "../../words/verification.ts";
import type { JobView } from "../engine/protocol.ts";
import { text } from "../english.ts";
import type { PageProps } from "../job/job-screen.tsx";
import { UNKNOWN } from "../practice/find-out.tsx";
import { ReadingForm } from "../step/reading-form.tsx";
import { Tally } from "../step/tally.tsx";
import { EndKey } from "./end-keys.tsx";
import { Tick, useTicks } from "./ticks.tsx";

type List = NonNullable<JobView["verification"]>;

/** After a repair: what proves it, in the order in which it is safe, and then the end of the job. */
export function VerificationPage({ job, write, list }: PageProps & { readonly list: List }) {
  const { isDone, toggle } = useTicks(job.record, write);
  const practice = job.record.head.practice !== undefined;
  // The machine of a practice job is not tested for safety: there it is ticked off.
  const endsHere = practice || list.isUntouched;
  const isTick = (item: VerificationItem) => item.do === "act" || (item.do === "test" && endsHere);
  const isLive = job.view.plan.energy === "live";
  const open = list.items.filter((item) => !isTick(item) || !isDone(item.says));
  // Advice shows in the customer's next loads: nothing is looked at here, and it may be closed all the same.
  const isAnswered = job.view.plan.unanswered.length === 0;
  const mayEnd = list.finished && open.length === 0 && isAnswered;
  return (
    <article>
      <h1 id="step" tabIndex={-1}>
        {list.title}
      </h1>
      {list.hasFailed && !endsHere && (
        <p className="trouble" role="alert">
          {text.end.testFailed}
        </p>
      )}
      <ol className="verify">
        {list.items.map((item) => (
          <li key={item.says}>
            {isTick(item) ? (
              <Tick says={item.says} done={isDone(item.says)} onPress={() => toggle(item.says)} />
            ) : item.do === "energise" && (endsHere || list.mayEnergise) ? (
              <Tick
                says={item.says}
                done={isLive}
                onPress={() => !isLive && write({ kind: "energised", body: "RCD lead" })}
              />
            ) : item.do === "act" || item.do === "test" || item.do === "energise" ? (
              <p>
                {item.says}{" "}
                <Link className="way" href={`/closing/${job.record.id}`}>
                  {text.end.toTestsShort}
                </Link>
              </p>
            ) : item.do === "close" ? (
              <Tick says={item.says} done={false} onPress={() => write(...closedWith(item))} />
            ) : item.do === "back" ? (
              <Tick says={item.says} done={false} onPress={() => write({ kind: "ticked", body: [item.connector] })} />
            ) : item.do === "see" ? (
              practice ? (
                <Ask item={item} write={write} />
              ) : (
                <See item={item} write={write} isEarly={!endsHere && !list.mayEnergise} />
              )
            ) : practice ? (
              <Ask item={item} write={write} />
            ) : item.do === "count" ? (
              <div className="question">
                <p>{item.says}</p>
                <Tally onDone={(good, of) => write(writtenAnswer(item.asks, `${good} of ${of}`))} />
              </div>
            ) : (
              <ReadAgain item={item} write={write} />
            )}
          </li>
        ))}
      </ol>
      {endsHere ? (
        <>
          <EndKey end="mended" write={write} disabled={!mayEnd} />
          {!mayEnd && <p className="faint">{isAnswered ? text.end.notYet(open.length) : text.step.mayNotClose}</p>}
        </>
      ) : (
        <Link className="big-key" href={`/closing/${job.record.id}`}>
          {text.end.toTests}
        </Link>
      )}
    </article>
  );
}

/** A cover closed with all that it disturbs put back. */
function closedWith({ access, items }: VerificationItem & { readonly do: "close" }): readonly WrittenEvent[] {
  return [...(items.length === 0 ? [] : [{ kind: "ticked", body: items }]), { kind: "closed", body: access }];
}

type Asks<K extends VerificationItem["do"]> = {
  readonly item: VerificationItem & { readonly do: K };
  readonly write: PageProps["write"];
};

/** The machine of a practice job answers by itself. */
function Ask({ item, write }: Asks<"see" | "read" | "count">) {
  return (
    <div className="question">
      <p>{item.says}</p>
      <button type="button" className="big-key" onClick={() => write(writtenAnswer(item.asks, UNKNOWN))}>
        {text.practice.findOut}
      </button>
    </div>
  );
}

/** What is seen with the machine running; `isEarly`: it must not run yet, and who saw it all the same may say so. */
function See({ item, write, isEarly }: Asks<"see"> & { readonly isEarly: boolean }) {
  return (
    <div className="question">
      <p>{item.says}</p>
      {isEarly && <p className="faint">{text.end.seeLater}</p>}
      <div className="keys">
        {item.answers.map((answer) => (
          <button
            key={answer}
            type="button"
            className={isEarly ? "big-key quiet" : "big-key"}
            onClick={() => write(writtenAnswer(item.asks, answer))}
          >
            {answer}
          </button>
        ))}
      </div>
    </div>
  );
}

function ReadAgain({ item, write }: Asks<"read">) {
  const [typed, setTyped] = useState("");
  return (
    <ReadingForm
      says={item.says}
      quantity={item.asks.probe.quantity}
      typed={typed}
      onType={setTyped}
      record={(shows) => write(writtenAnswer(item.asks, shows))}
    />
  );
}
