import { Link } from "wouter";
import type { JobEnd } from "../../../core/ledger/index.ts";
import { text } from "../english.ts";
import type { PageProps } from "../job/job-screen.tsx";
import { TwoHistories } from "../practice/two-histories.tsx";
import { whenText } from "../shell/when-text.ts";

/** A job that has come to its end: how, when, what was done; and the way back into it. */
export function EndedPage({ job, write, end }: PageProps & { readonly end: JobEnd }) {
  const { record, view } = job;
  const counting = record.events.filter(({ id }) => !record.withdrawn.has(id));
  const closing = counting.findLast(({ kind }) => kind === "closes");
  const notes = counting.filter(({ kind }) => kind === "note" || kind === "left").slice(-1);
  const named = new Map(view.desk.parts.map(({ id, says }) => [id, says]));
  return (
    <article>
      <h1 id="step" tabIndex={-1}>
        {text.end.states[end]}
      </h1>
      {closing !== undefined && (
        <p>
          <time dateTime={closing.time}>{whenText(closing.time)}</time>
        </p>
      )}
      {view.work.repairs.length > 0 && (
        <>
          <h2>{text.end.was}</h2>
          <ul>
            {view.work.repairs.map(({ event, on, remedy }) => (
              <li key={event}>
                {named.get(on) ?? on}: {remedy}
              </li>
            ))}
          </ul>
        </>
      )}
      {end !== "mended" && notes.map(({ id, body }) => <p key={id}>{reasonIn(body)}</p>)}
      {record.head.practice !== undefined && <TwoHistories record={record} />}
      {record.head.practice === undefined && (
        <Link className="big-key" href={`/papers/${record.id}`}>
          {text.papers}
        </Link>
      )}
      <button type="button" className="big-key quiet" onClick={() => write({ kind: "reopens", body: null })}>
        {end === "waiting" ? text.end.goOn : text.end.reopen}
      </button>
    </article>
  );
}

/** Why it was left as it is: a note's words, or what is waited for. */
function reasonIn(body: unknown): string {
  return typeof body === "object" && body !== null
    ? String((body as Record<string, unknown>)["waiting for"])
    : String(body);
}
