import type { PlanStep } from "../../../core/plan/index.ts";
import { text } from "../english.ts";
import { OddsDots } from "../faults/odds-dots.tsx";
import type { PageProps, StepPen } from "../job/job-screen.tsx";
import { Questions } from "../step/questions.tsx";
import { OutlookSummary } from "./outlook-summary.tsx";

const mostAsked = 5;
const mostTold = 4;
const leastTold = 0.03;

/** On the telephone: the questions that tell most, in one list, and what may be said aloud as it stands. */
export function TelephonePage({ job, pen }: Pick<PageProps, "job"> & { readonly pen: StepPen }) {
  const { plan, belief, outlook } = job.view;
  const asks = plan.steps.filter(({ do: what }) => what === "ask").slice(0, mostAsked);
  const all: PlanStep | undefined = asks[0] && {
    ...asks[0],
    says: text.telephone.ask,
    questions: asks.flatMap(({ questions }) => questions),
  };
  return (
    <article key={job.serial}>
      <h1 id="step" tabIndex={-1}>
        {text.telephone.ask}
      </h1>
      <ul className="care">
        {text.telephone.first.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      {all === undefined ? (
        <p>{text.telephone.allAsked}</p>
      ) : (
        <fieldset className="plain" disabled={pen.busy}>
          <Questions step={all} view={job.view} pen={pen} />
        </fieldset>
      )}
      <section>
        <h2>{text.tabs.faults}</h2>
        <ul className="ledger">
          {belief.parts
            .filter(({ p }) => p >= leastTold)
            .slice(0, mostTold)
            .map(({ part, says, p }) => (
              <li key={part} className="fault-line plain">
                <span className="fault-name">{says}</span>
                <OddsDots p={p} />
              </li>
            ))}
          {belief.nothingWrong >= leastTold && (
            <li className="fault-line plain">
              <span className="fault-name">{text.faults.nothingWrong}</span>
              <OddsDots p={belief.nothingWrong} />
            </li>
          )}
        </ul>
      </section>
      {outlook !== undefined && <OutlookSummary outlook={outlook} view={job.view} />}
    </article>
  );
}
