import { type WrittenEvent, writtenAnswer } from "../../../core/ledger/index.ts";
import type { PlanStep } from "../../../core/plan/index.ts";
import type { JobView } from "../engine/protocol.ts";
import { text } from "../english.ts";
import type { StepPen } from "../job/job-screen.tsx";
import { BranchDrawing } from "../step/branch-drawing.tsx";
import { ReadingScale } from "../step/reading-scale.tsx";

/** Where an answer would be written: the machine gives it. */
export const UNKNOWN = "?";

/** On a practice job: what a step asks, with its scales, and one key; the machine answers. */
export function FindOut(props: { readonly step: PlanStep; readonly view: JobView; readonly pen: StepPen }) {
  const { step, view, pen } = props;
  if (step.questions.length === 0) return null;
  const odds = new Map(view.belief.parts.map(({ part, p }) => [part, p]));
  const asked = step.questions.map(({ observation }): WrittenEvent => writtenAnswer(observation, UNKNOWN));
  return (
    <section className="question">
      {step.questions.map((question) => (
        <div key={question.says}>
          <h3>{question.says}</h3>
          {question.probe?.from !== undefined && question.probe.to !== undefined && (
            <BranchDrawing
              way={view.ways[question.probe.id] ?? []}
              from={question.probe.from}
              to={question.probe.to}
              odds={odds}
            />
          )}
          <ReadingScale question={question} typed="" />
        </div>
      ))}
      <button type="button" className="big-key" onClick={() => pen.write(...asked)}>
        {text.practice.findOut}
      </button>
    </section>
  );
}
