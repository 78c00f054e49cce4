import { useEffect, useRef, useState } from "react";
import type { PlanStep } from "../../../core/plan/index.ts";
import { oddsInWords } from "../../words/odds.ts";
import { EndedPage } from "../end/ended-page.tsx";
import { VerificationPage } from "../end/verification-page.tsx";
import { text } from "../english.ts";
import type { PageProps, StepPen } from "../job/job-screen.tsx";
import { OwnPage } from "../own/own-page.tsx";
import { isOnTelephone, mayBeTalkedOver } from "../telephone/on-telephone.ts";
import { TelephonePage } from "../telephone/telephone-page.tsx";
import { stepFacts } from "./facts.ts";
import { StepCard } from "./step-card.tsx";
import { KnownWhy } from "./why-keys.tsx";

const runnersUp = 4;
/** Steps that look for nothing. */
const restful: ReadonlySet<string> = new Set(["verify", "stop"]);

/** The step to take, and below it the steps that may be taken instead. */
export function NextPage({
  job,
  pen,
  where,
  setWhere,
}: Omit<PageProps, "write"> & {
  readonly pen: StepPen;
  readonly where: "telephone" | "machine";
  readonly setWhere: (where: "telephone" | "machine") => void;
}) {
  const { plan, currency } = job.view;
  const [chosen, setChosen] = useState<string>();
  const { serial } = job;
  // A new plan is another list: the choice was from the old one.
  // biome-ignore lint/correctness/useExhaustiveDependencies: runs when there is a new plan
  useEffect(() => setChosen(undefined), [serial]);
  useNewStepInSight(serial);
  useEffect(() => {
    if (chosen !== undefined) showStep();
  }, [chosen]);
  const { verification } = job.view;
  const { end } = job.record;
  const toVerify = verification !== undefined && verification.stillAmiss.length === 0 ? verification : undefined;
  // While a repair is being verified the search is what to do if it is not right.
  const search = toVerify === undefined ? plan.steps : plan.steps.filter(({ do: what }) => !restful.has(what));
  const onTelephone = isOnTelephone(where, job.view);
  const first = toVerify === undefined ? search[0] : mendedFirst(plan.steps);
  const step = search.find(({ id }) => id === chosen) ?? first;
  const others =
    toVerify?.inOrder === true
      ? []
      : search.filter((one) => one !== step && !(onTelephone && one.do === "ask")).slice(0, runnersUp);
  if (end !== undefined) return <EndedPage job={job} write={pen.write} end={end} />;
  return (
    <>
      {(where === "telephone" || mayBeTalkedOver(job)) && (
        <fieldset className="where">
          {(["telephone", "machine"] as const).map((one) => (
            <button key={one} type="button" aria-pressed={one === where} onClick={() => setWhere(one)}>
              {one === "telephone" ? text.step.telephone : text.step.atMachine}
            </button>
          ))}
        </fieldset>
      )}
      {plan.timeIsUp && <p className="trouble">{text.step.timeIsUp}</p>}
      {plan.unanswered.map((protector) => (
        <div key={protector.protector} className="trouble">
          <p>
            {protector.says} {text.step.why_is}{" "}
            {protector.reasons
              .slice(0, 4)
              .map(({ says, p }) => `${says} (${oddsInWords(p)})`)
              .join(", ")}
            . {text.step.mayNotClose}
          </p>
          <fieldset className="plain" disabled={pen.busy}>
            <KnownWhy of={protector} write={pen.write} />
          </fieldset>
        </div>
      ))}
      {verification !== undefined && toVerify === undefined && (
        <p className="trouble">
          {text.end.stillAmiss(verification.repair)} {verification.stillAmiss.join("; ")}.
        </p>
      )}
      {step === undefined && toVerify === undefined && !onTelephone && <p>{text.step.nothing}</p>}
      {step === undefined && toVerify !== undefined && (
        <fieldset className="plain" disabled={pen.busy}>
          <VerificationPage job={job} write={pen.write} list={toVerify} />
        </fieldset>
      )}
      {onTelephone && <TelephonePage job={job} pen={pen} />}
      {step !== undefined && !onTelephone && (
        <fieldset className="plain" disabled={pen.busy}>
          <StepCard
            key={`${step.id} ${serial}`}
            step={step}
            view={job.view}
            head={job.record.head}
            job={job.record.id}
            minded={job.record.minded}
            pen={pen}
          />
        </fieldset>
      )}
      {others.length > 0 && (
        <section>
          <h2>{step === undefined ? text.end.ifNotRight : text.step.instead}</h2>
          <ul className="ledger">
            {others.map((other) => (
              <li key={other.id}>
                <button type="button" className="line-key" disabled={pen.busy} onClick={() => setChosen(other.id)}>
                  <span>{other.says}</span> <span className="faint">{stepFacts(other, currency)}</span>
                </button>
              </li>
            ))}
          </ul>
        </section>
      )}
      <fieldset className="plain" disabled={pen.busy}>
        <OwnPage job={job} write={pen.write} />
      </fieldset>
    </>
  );
}

/** What is known to be broken as well, and is mended before the repair is tried; none where the proof comes first. */
function mendedFirst(steps: readonly PlanStep[]): PlanStep | undefined {
  return steps[steps.findIndex((step) => step.do === "verify") - 1];
}

/** Brings a new step into sight, and the keyboard to it, where the key that was pressed last is gone. */
function useNewStepInSight(serial: number): void {
  const first = useRef(serial);
  useEffect(() => {
    if (serial === first.current || document.activeElement !== document.body) return;
    showStep();
  }, [serial]);
}

function showStep(): void {
  window.scrollTo(0, 0);
  document.getElementById("step")?.focus({ preventScroll: true });
}
