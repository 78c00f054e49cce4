import { Link } from "wouter";
import { LeaveKeys } from "../end/end-keys.tsx";
import { text } from "../english.ts";
import { CourseKeys, CourseText } from "../step/course.tsx";
import { stepFacts } from "../step/facts.ts";
import type { PageProps } from "./job-screen.tsx";

/** What can be done about the faults that are possible now, the likeliest to mend first. */
export function DonePage({ job, write }: PageProps) {
  const { plan, currency } = job.view;
  const courses = plan.steps
    .filter((step) => step.course !== undefined || step.do === "stop")
    .sort((a, b) => (b.course?.mends ?? -1) - (a.course?.mends ?? -1));
  return (
    <>
      <h1>{text.tabs.done}</h1>
      {job.record.end === undefined && job.view.verification === undefined && (
        <Link className="big-key" href={`/choices/${job.record.id}`}>
          {text.showCustomer}
        </Link>
      )}
      <Link className="line-key" href={`/papers/${job.record.id}`}>
        {text.papers}
      </Link>
      {courses.length === 0 && <p>{text.step.nothing}</p>}
      {courses.map((step) => (
        <section key={step.id}>
          <h2>{step.says}</h2>
          <p className="faint">{stepFacts(step, currency)}</p>
          {step.course !== undefined && (
            <>
              <CourseText step={step} />
              <details>
                <summary>{text.step.writeDone}</summary>
                <CourseKeys course={step.course} write={write} untold={job.record.head.practice !== undefined} />
              </details>
            </>
          )}
        </section>
      ))}
      {job.record.end === undefined && <LeaveKeys job={job} write={write} />}
    </>
  );
}
