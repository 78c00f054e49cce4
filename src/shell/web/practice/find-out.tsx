import { type WrittenEvent, writtenAnswer } from "../../../core/ledger/index.ts";
import type { PlanStep } from "../../../core/plan/index.ts";
import type { JobView } from "../engine/protocol.ts";
import { text } from "../english.ts";
import type { StepPen } from "../job/job-screen.tsx";
import { QuestionShows } from "../step/question-shows.tsx";

/** Where an answer would be written: the machine gives it. */
export const UNKNOWN = "?";

/** On a practice job: what a step asks, with its scales, and one key; the machine answers. */
export function FindOut(props: { readonly step: PlanStep; readonly view: JobView; readonly pen: StepPen }) {
  const { step, view, pen } = props;
  if (step.questions.length === 0) return null;
  const asked = step.questions.map(({ observation }): WrittenEvent => writtenAnswer(observation, UNKNOWN));
  return (
    <section className="question">
      {step.questions.map((question) => (
        <div key={question.says}>
          <h3>{question.says}</h3>
          <QuestionShows question={question} view={view} typed="" />
        </div>
      ))}
      <button type="button" className="big-key" onClick={() => pen.write(...asked)}>
        {text.practice.findOut}
      </button>
    </section>
  );
}
