import type { CourseOdds, PlanStep } from "../../../core/plan/index.ts";
import { remediesIn } from "../../../core/remedy/index.ts";
import { oddsInWords } from "../../words/odds.ts";
import { text } from "../english.ts";
import type { Write } from "../job/job-screen.tsx";

/** What a remedy promises, and how it is done. */
export function CourseText({ step }: { readonly step: PlanStep }) {
  const { course } = step;
  if (course === undefined) return null;
  return (
    <>
      <p>
        {oddsInWords(course.mends)} {text.step.mends}; {text.step.returns}: {oddsInWords(course.back)}.
      </p>
      {course.steps.length > 0 && (
        <ul>
          {course.steps.map((act) => (
            <li key={act}>{act}</li>
          ))}
        </ul>
      )}
      {step.overAuthority === true && <p className="trouble">{text.step.overAuthority}</p>}
    </>
  );
}

/** Writes a remedy down: it worked, it did not, or nobody knows yet (`untold`: nobody can know yet). */
export function CourseKeys(props: { readonly course: CourseOdds; readonly write: Write; readonly untold?: boolean }) {
  const { course, write, untold = false } = props;
  const did = (worked?: "yes" | "no") =>
    write(
      ...remediesIn(course.id).map(({ on, remedy }, n) => ({
        kind: "did",
        body: {
          remedy,
          on,
          ...(worked === undefined ? {} : { worked }),
          // The price is that of all that is done in one go.
          ...(course.price > 0 && n === 0 ? { price: course.price } : {}),
        },
      })),
    );
  return (
    <div className="keys three">
      {!untold && (
        <>
          <button type="button" className="big-key" onClick={() => did("yes")}>
            {text.step.worked}
          </button>
          <button type="button" className="big-key" onClick={() => did("no")}>
            {text.step.didNot}
          </button>
        </>
      )}
      <button type="button" className="big-key quiet" onClick={() => did()}>
        {text.step.untried}
      </button>
    </div>
  );
}
