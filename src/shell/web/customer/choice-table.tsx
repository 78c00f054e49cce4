import { useState } from "react";
import { Link } from "wouter";
import type { ChoiceRow, ChoicesView, Ready } from "../engine/choices-view.ts";
import { customerText } from "../english-customer.ts";
import type { Write } from "../job/job-screen.tsx";
import { offeredBy } from "./offered.ts";
import { SignatureView } from "./signature-view.tsx";
import { TenDots } from "./ten-dots.tsx";

const words = customerText;

/** One ruled table, a row a course, none put before another; what was agreed stands above it. */
export function ChoiceTable(props: {
  readonly id: string;
  readonly view: ChoicesView;
  readonly ids: readonly string[];
  readonly write: Write;
}) {
  const { id, view, ids, write } = props;
  const [kept, setKept] = useState(false);
  return (
    <>
      <h1>{words.title}</h1>
      <p>
        {view.customer === undefined ? view.machine : `${words.forWhom} ${view.customer} · ${view.machine}`}
        {view.payer === undefined ? "" : ` · ${words.pays(view.payer)}`}
      </p>
      <p>{view.allowed === undefined ? words.noLimit : words.limit(view.allowed)}</p>
      {view.accepted !== undefined && <Agreed accepted={view.accepted} ids={ids} write={write} />}
      <table className="choice-table">
        <thead>
          <tr>
            {Object.values(words.columns).map((says) => (
              <th key={says} scope="col">
                {says}
              </th>
            ))}
          </tr>
        </thead>
        {view.rows.map((row) => (
          <Row key={row.id} id={id} row={row} view={view} write={write} />
        ))}
      </table>
      <p>{view.limit}</p>
      {view.older !== undefined && <p>{view.older}</p>}
      <p>{words.expected}</p>
      <Link className="big-key quiet" href={`/choices/${id}/declined/all`}>
        {words.noneOfThese}
      </Link>
      <button
        type="button"
        className="big-key quiet"
        onClick={async () => setKept((await write(offeredBy(view))) !== undefined)}
      >
        {words.later}
      </button>
      <p role="status">{kept ? words.kept : ""}</p>
    </>
  );
}

/** A course by its name, its figures below it, and the two answers to it. */
function Row(props: {
  readonly id: string;
  readonly row: ChoiceRow;
  readonly view: ChoicesView;
  readonly write: Write;
}) {
  const { id, row, view, write } = props;
  const isStop = row.ready.when === "never";
  const isDeclined = view.declined.includes(row.id) || view.declined.includes("all");
  return (
    <tbody>
      <tr>
        <th scope="rowgroup" colSpan={4}>
          {row.says}
        </th>
      </tr>
      <tr>
        <td>
          {row.range === undefined ? row.amount : words.about(row.amount)}
          {row.range !== undefined && <small>{words.range(row.range.lo, row.range.hi)}</small>}
          {row.deposit !== undefined && <small>{words.deposit(row.deposit)}</small>}
        </td>
        <td>
          {row.cured === undefined ? (
            words.notMended
          ) : (
            <>
              <TenDots p={row.cured.p} />
              {row.cured.says}
            </>
          )}
        </td>
        <td>
          {row.back === undefined ? (
            words.none
          ) : (
            <>
              {row.back.says}
              <small>{words.within(row.back.months)}</small>
            </>
          )}
        </td>
        <td>{readyInWords(row.ready)}</td>
      </tr>
      {row.notes.map((note) => (
        <tr key={note} className="note-row">
          <td colSpan={4}>{note}</td>
        </tr>
      ))}
      <tr className="answers">
        <td colSpan={4}>
          <div className="answer-keys">
            <Link
              className="answer-key"
              href={`/choices/${id}/accepted/${row.address}`}
              aria-label={`${words.accept}: ${row.says}`}
            >
              {words.accept}
            </Link>
            {isDeclined && !isStop && <span>{words.declined}</span>}
            {!isDeclined && !isStop && (
              <button
                type="button"
                className="answer-key"
                aria-label={`${words.decline}: ${row.says}`}
                onClick={() => write(offeredBy(view), { kind: "declined", body: { choice: row.id } })}
              >
                {words.decline}
              </button>
            )}
          </div>
        </td>
      </tr>
    </tbody>
  );
}

/** What was agreed, by whom; it can be taken back here as in the job's history. */
function Agreed(props: {
  readonly accepted: NonNullable<ChoicesView["accepted"]>;
  readonly ids: readonly string[];
  readonly write: Write;
}) {
  const { accepted, ids, write } = props;
  const { says, price, who, signed, event } = accepted;
  const isDrawn = signed !== undefined && /^[0-9a-f]{64}$/.test(signed);
  const how = signed === undefined ? words.byWord : isDrawn ? words.withSignature : signed;
  const written = ids[event - 1];
  return (
    <section className="agreed">
      <h2>{words.agreed}</h2>
      <p>
        <b>{price === undefined ? says : words.agreedAt(says, price)}</b>
      </p>
      <p>{[who, how].filter((one) => one !== undefined).join(", ")}</p>
      {isDrawn && <SignatureView hash={signed} who={who} />}
      {written !== undefined && (
        <button type="button" className="small-key" onClick={() => write({ kind: "withdraws", body: written })}>
          {words.takeBack}
        </button>
      )}
    </section>
  );
}

function readyInWords(ready: Ready): string {
  switch (ready.when) {
    case "never":
      return words.none;
    case "found":
      return words.found;
    case "ordered":
      return words.ordered;
    case "today":
      return words.today(ready.work);
    case "days":
      return words.days(ready.lo, ready.hi);
  }
}
