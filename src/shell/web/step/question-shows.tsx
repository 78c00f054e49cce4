import type { PlanQuestion } from "../../../core/plan/index.ts";
import type { JobView } from "../engine/protocol.ts";
import { BranchDrawing } from "./branch-drawing.tsx";
import { ReadingScale } from "./reading-scale.tsx";

/** What a question reads and what would be read: the drawn way between its two points, with odds, and its scale. */
export function QuestionShows(props: {
  readonly question: PlanQuestion;
  readonly view: JobView;
  readonly typed: string;
}) {
  const { question, view, typed } = props;
  const { probe } = question;
  return (
    <>
      {probe?.from !== undefined && probe.to !== undefined && (
        <BranchDrawing
          way={view.ways[probe.id] ?? []}
          from={probe.from}
          to={probe.to}
          odds={new Map(view.belief.parts.map(({ part, p }) => [part, p]))}
        />
      )}
      <ReadingScale question={question} typed={typed} />
    </>
  );
}
