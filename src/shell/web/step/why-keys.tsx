import type { WrittenEvent } from "../../../core/ledger/index.ts";
import { type Plan, type PlanStep, whyOf } from "../../../core/plan/index.ts";
import { text } from "../english.ts";
import type { Write } from "../job/job-screen.tsx";
import { Folded } from "../shell/folded.tsx";

/**
 * What is written down beside the answer of a step that looks for why a protector opened: that this was why, or that the
 * step need not be asked again. Nothing for any other step.
 */
export function reasonWritten(step: PlanStep, isIt: boolean): readonly WrittenEvent[] {
  const why = whyOf(step);
  if (why === undefined) return [];
  return [isIt ? becauseOf(why.protector, why.reason) : { kind: "cannot", body: { step: step.id } }];
}

function becauseOf(protector: string, reason: string): WrittenEvent {
  return { kind: "why", body: { [protector]: reason } };
}

/** Answers to a step that asks for a reason of which there is nothing to look at, or no longer. */
export function WhyKeys({ step, write }: { readonly step: PlanStep; readonly write: Write }) {
  if (whyOf(step) === undefined || step.questions.length > 0) return null;
  return (
    <div className="keys">
      <button type="button" className="big-key" onClick={() => write(...reasonWritten(step, true))}>
        {text.step.isWhy}
      </button>
      <button type="button" className="big-key quiet" onClick={() => write(...reasonWritten(step, false))}>
        {text.step.isNotWhy}
      </button>
    </div>
  );
}

/** A protector's reason written down at once, by whoever knows it: every one that the sheet has, "it was weak itself" too. */
export function KnownWhy(props: { readonly of: Plan["unanswered"][number]; readonly write: Write }) {
  const { of: protector, write } = props;
  return (
    <Folded says={text.step.knownWhy}>
      <ul className="ledger">
        {protector.reasons.map(({ reason, says }) => (
          <li key={reason}>
            <button type="button" className="line-key" onClick={() => write(becauseOf(protector.protector, reason))}>
              {says}
            </button>
          </li>
        ))}
      </ul>
    </Folded>
  );
}
