import { useEffect, useState } from "react";
import { oddsInWords } from "../../words/odds.ts";
import { text } from "../english.ts";
import type { PageProps } from "../job/job-screen.tsx";
import { OwnPage } from "../own/own-page.tsx";
import { stepFacts } from "./facts.ts";
import { StepCard } from "./step-card.tsx";

const runnersUp = 4;

/** The step to take, and below it the steps that may be taken instead. */
export function NextPage({
  job,
  write,
  where,
  setWhere,
}: PageProps & {
  readonly where: "telephone" | "machine";
  readonly setWhere: (where: "telephone" | "machine") => void;
}) {
  const { plan, currency } = job.view;
  const [chosen, setChosen] = useState<string>();
  const events = job.record.events.length;
  // A new event makes a new plan: the choice was for the old one.
  // biome-ignore lint/correctness/useExhaustiveDependencies: runs when the number of events changes
  useEffect(() => setChosen(undefined), [events]);
  const step = plan.steps.find(({ id }) => id === chosen) ?? plan.steps[0];
  const others = plan.steps.filter((one) => one !== step).slice(0, runnersUp);
  return (
    <>
      <fieldset className="where">
        {(["telephone", "machine"] as const).map((one) => (
          <button key={one} type="button" aria-pressed={one === where} onClick={() => setWhere(one)}>
            {one === "telephone" ? text.step.telephone : text.step.atMachine}
          </button>
        ))}
      </fieldset>
      {plan.timeIsUp && <p className="trouble">{text.step.timeIsUp}</p>}
      {plan.unanswered.map((protector) => (
        <p key={protector.protector} className="trouble">
          {protector.says} {text.step.why_is}{" "}
          {protector.reasons
            .slice(0, 4)
            .map(({ says, p }) => `${says} (${oddsInWords(p)})`)
            .join(", ")}
          . {text.step.mayNotClose}
        </p>
      ))}
      {step === undefined ? (
        <p>{text.step.nothing}</p>
      ) : (
        <StepCard key={`${step.id} ${events}`} step={step} view={job.view} write={write} />
      )}
      {others.length > 0 && (
        <section>
          <h2>{text.step.instead}</h2>
          <ul className="ledger">
            {others.map((other) => (
              <li key={other.id}>
                <button type="button" className="line-key" onClick={() => setChosen(other.id)}>
                  <span>{other.says}</span> <span className="faint">{stepFacts(other, currency)}</span>
                </button>
              </li>
            ))}
          </ul>
        </section>
      )}
      <OwnPage job={job} write={write} />
    </>
  );
}
