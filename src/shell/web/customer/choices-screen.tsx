import "../look/customer.css";
import { Link } from "wouter";
import { customerText } from "../english-customer.ts";
import { useWriting } from "../job/use-writing.ts";
import { Troubles } from "../shell/troubles.tsx";
import { ChoiceTable } from "./choice-table.tsx";
import { SignPage } from "./sign-page.tsx";
import { useChoices } from "./use-choices.ts";

/** The page that is turned round to the customer: nothing of the search is on it, and one way leads back. */
export function ChoicesScreen({
  id,
  answer,
  choice,
}: {
  readonly id: string;
  readonly answer: string | undefined;
  readonly choice: string | undefined;
}) {
  const { record, ids, view, thinking, issues } = useChoices(id);
  const { put, refused, onItsWay } = useWriting(id, record);
  const words = customerText;
  const signing = answer === "accepted" || answer === "declined" ? answer : undefined;
  const busy = thinking || onItsWay;
  return (
    <main className="column customer">
      <p className="way-back">
        {signing === undefined ? (
          <Link href={`/job/${id}/done`}>‹ {words.back}</Link>
        ) : (
          <Link href={`/choices/${id}`}>‹ {words.toTable}</Link>
        )}
      </p>
      <Troubles refused={refused} issues={issues} />
      <p className="thinking-line" role="status">
        {thinking && issues.length === 0 ? words.working : ""}
      </p>
      {view !== undefined && (
        <fieldset className="plain" disabled={busy}>
          {signing === undefined ? (
            <ChoiceTable id={id} view={view} ids={ids} write={put} />
          ) : (
            <SignPage id={id} view={view} answer={signing} address={choice ?? "all"} write={put} />
          )}
        </fieldset>
      )}
    </main>
  );
}
