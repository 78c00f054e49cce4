import { lazy } from "react";
import { Link } from "wouter";
import { type JobHead, writtenAct } from "../../../core/ledger/index.ts";
import type { PlanStep } from "../../../core/plan/index.ts";
import { outcomesOf } from "../../words/outcomes.ts";
import { actInWords, titleOf } from "../../words/step.ts";
import { whyStepInWords } from "../../words/why-step.ts";
import type { JobView } from "../engine/protocol.ts";
import { text } from "../english.ts";
import type { StepPen } from "../job/job-screen.tsx";
import { PhotoKey } from "../photo/photo-key.tsx";
import { FindOut } from "../practice/find-out.tsx";
import { Folded } from "../shell/folded.tsx";
import { Cautions } from "./cautions.tsx";
import { CourseKeys, CourseText } from "./course.tsx";
import { stepFacts } from "./facts.ts";
import { Questions } from "./questions.tsx";
import { WhyKeys } from "./why-keys.tsx";

const OwnDifference = lazy(async () => ({ default: (await import("../own/own-difference.tsx")).OwnDifference }));

/** One step: a sentence first, then what to get ready, what can hurt, what to read and what it leads to. */
export function StepCard(props: {
  readonly step: PlanStep;
  readonly view: JobView;
  readonly head: JobHead;
  /** Id of the job. */
  readonly job: string;
  /** General cautions that were acknowledged on it. */
  readonly minded: ReadonlySet<string>;
  readonly pen: StepPen;
}) {
  const { step, view, head, job, minded, pen } = props;
  const { write } = pen;
  const toWrite = step.setUp.filter((act) => writtenAct(act) !== undefined);
  const ready = toWrite.flatMap((act) => writtenAct(act) ?? []);
  const { title, place } = titleOf(step);
  return (
    <article className="card">
      <div className="what">
        <h1 id="step" tabIndex={-1}>
          {title}
        </h1>
        <p className="faint">
          {place === "" ? "" : `${place} · `}
          {stepFacts(step, view.currency)}
        </p>
        <Cautions step={step} minded={minded} write={write} />
        {step.setUp.length > 0 && (
          <p>
            <b>{text.step.ready}:</b> {step.setUp.map(actInWords).join("; ")}.
          </p>
        )}
        {ready.length > 0 && (
          <button type="button" className="big-key quiet low" onClick={() => write(...ready)}>
            <span>{text.step.allReady}</span>
            <small>
              {text.step.record}: {toWrite.map(actInWords).join("; ")}
            </small>
          </button>
        )}
      </div>
      <div className="ask">
        {head.practice === undefined ? (
          <Questions step={step} view={view} pen={pen} />
        ) : (
          <FindOut step={step} view={view} pen={pen} />
        )}
        <WhyKeys step={step} write={write} />
        {step.course !== undefined && (
          <>
            <CourseText step={step} />
            <CourseKeys course={step.course} write={write} untold={head.practice !== undefined} />
          </>
        )}
      </div>
      <div className="rest">
        {step.settles !== "" && (
          <p>
            <b>{text.step.why}:</b> {whyStepInWords(step, view.readGood)}.
          </p>
        )}
        <Outcomes step={step} />
        <Link className="line-key" href={`/job/${job}/circuit`}>
          {text.circuit.whole}
        </Link>
        <Folded says={text.own.differs.title}>
          <OwnDifference desk={view.desk} head={head} write={write} />
        </Folded>
        <PhotoKey job={job} at={title} />
        <button type="button" className="line-key" onClick={() => write({ kind: "cannot", body: { step: step.id } })}>
          {step.do === "talk" || step.do === "stop" ? text.step.goOn : text.step.cannot}
        </button>
        {(step.do === "talk" || step.do === "stop") && (
          <Link className="line-key" href={`/job/${job}/done`}>
            {text.end.leaveTitle}
          </Link>
        )}
      </div>
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
