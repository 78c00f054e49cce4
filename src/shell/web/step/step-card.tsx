import { lazy } from "react";
import { type JobHead, writtenAct } from "../../../core/ledger/index.ts";
import type { PlanStep } from "../../../core/plan/index.ts";
import { outcomesOf } from "../../words/outcomes.ts";
import { actInWords, chargeInWords, headingOf } from "../../words/step.ts";
import { whyStepInWords } from "../../words/why-step.ts";
import type { JobView } from "../engine/protocol.ts";
import { text } from "../english.ts";
import type { StepPen } from "../job/job-screen.tsx";
import { FindOut } from "../practice/find-out.tsx";
import { Folded } from "../shell/folded.tsx";
import { CourseKeys, CourseText } from "./course.tsx";
import { stepFacts } from "./facts.ts";
import { Questions } from "./questions.tsx";

const OwnDifference = lazy(async () => ({ default: (await import("../own/own-difference.tsx")).OwnDifference }));

/** One step: a sentence first, then what to get ready, what can hurt, what to read and what it leads to. */
export function StepCard(props: {
  readonly step: PlanStep;
  readonly view: JobView;
  readonly head: JobHead;
  readonly pen: StepPen;
}) {
  const { step, view, head, pen } = props;
  const { write } = pen;
  const ready = step.setUp.flatMap((act) => writtenAct(act) ?? []);
  return (
    <article>
      <h1 id="step" tabIndex={-1}>
        {headingOf(step)}
      </h1>
      <p className="faint">{stepFacts(step, view.currency)}</p>
      {step.settles !== "" && (
        <p>
          <b>{text.step.why}:</b> {whyStepInWords(step, view.readGood)}.
        </p>
      )}
      {step.setUp.length > 0 && (
        <>
          <h3>{text.step.ready}</h3>
          <ol>
            {step.setUp.map((act) => (
              <li key={actInWords(act)}>{actInWords(act)}</li>
            ))}
          </ol>
        </>
      )}
      {(step.cautions.length > 0 || step.stored.length > 0) && (
        <>
          <h3>{text.step.care}</h3>
          <ul className="care">
            {step.cautions
              .flatMap(({ lines }) => lines)
              .map((line) => (
                <li key={line}>{line}</li>
              ))}
            {step.stored.map((charge) => (
              <li key={charge.says}>{chargeInWords(charge)}</li>
            ))}
          </ul>
        </>
      )}
      {ready.length > 0 && (
        <button type="button" className="big-key quiet" onClick={() => write(...ready)}>
          {text.step.allReady}
        </button>
      )}
      {head.practice === undefined ? (
        <Questions step={step} view={view} pen={pen} />
      ) : (
        <FindOut step={step} view={view} pen={pen} />
      )}
      {step.course !== undefined && (
        <>
          <CourseText step={step} />
          <CourseKeys course={step.course} write={write} untold={head.practice !== undefined} />
        </>
      )}
      <Outcomes step={step} />
      <Folded says={text.own.differs.title}>
        <OwnDifference desk={view.desk} head={head} write={write} />
      </Folded>
      <button type="button" className="line-key" onClick={() => write({ kind: "cannot", body: { step: step.id } })}>
        {text.step.cannot}
      </button>
    </article>
  );
}

function Outcomes({ step }: { readonly step: PlanStep }) {
  const outcomes = outcomesOf(step);
  if (outcomes.length === 0) return null;
  return (
    <details>
      <summary>{text.step.leads}</summary>
      <dl>
        {outcomes.map(({ ways, lead }) => (
          <div key={lead}>
            <dt>{ways.join(", or ")}</dt>
            <dd>{lead}</dd>
          </div>
        ))}
      </dl>
    </details>
  );
}
