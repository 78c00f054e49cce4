import { TextInput } from "@mantine/core";
import { useState } from "react";
import { Link } from "wouter";
import { EndKey } from "../end/end-keys.tsx";
import type { ClosingRoom, ClosingView } from "../engine/closing-view.ts";
import { text } from "../english.ts";
import { closingText } from "../english-closing.ts";
import type { Write } from "../job/job-screen.tsx";
import type { RoomProps } from "./closing-screen.tsx";

const words = closingText.gate;

/** What keeps the job from being closed as mended, and the key that closes it when nothing does. */
export function GatePage({ id, job, view, write }: RoomProps) {
  const { end } = job.record;
  const { isOpen, reasons } = view.gate;
  return (
    <>
      <h1 id="step" tabIndex={-1}>
        {closingText.rooms.gate}
      </h1>
      {view.repair !== undefined && <p>{view.repair.says}</p>}
      {end !== undefined && (
        <p className="trouble" role="status">
          <b>{words.ended[end]}</b> {view.energy === "live" && words.leadOff}{" "}
          <Link href={`/job/${id}`}>{closingText.toJob}</Link>
        </p>
      )}
      {view.energisedEarly !== undefined && (
        <p className="trouble">
          {closingText.tests.early[view.energisedEarly]} {view.owesNewTests && closingText.tests.owes}
        </p>
      )}
      {!view.isUntouched && <Checks view={view} write={write} />}
      {view.unanswered.map((one) => (
        <Why key={one.protector} protector={one} write={write} />
      ))}
      <section>
        {isOpen ? (
          end === undefined && <p className="verdict">{words.open}</p>
        ) : (
          <>
            <h2>{words.shut}</h2>
            <ul className="reasons">
              {reasons.map(({ says, room }) => (
                <li key={says}>
                  {says} <Way id={id} room={room} />
                </li>
              ))}
            </ul>
          </>
        )}
        {end === undefined && <EndKey end="mended" write={write} disabled={!isOpen} />}
        {end !== undefined && (
          <Link className="big-key" href={`/papers/${id}`}>
            {words.papers}
          </Link>
        )}
      </section>
      {end === undefined && (
        <section>
          <h2>{text.end.ifNotRight}</h2>
          <Link className="way" href={`/job/${id}/done`}>
            {words.leave}
          </Link>
          <Link className="way" href={`/closing/${id}/notice`}>
            {words.notice}
          </Link>
        </section>
      )}
    </>
  );
}

function Way({ id, room }: { readonly id: string; readonly room: ClosingRoom }) {
  if (room === "gate") return null;
  const href = room === "job" ? `/job/${id}` : `/closing/${id}/${room}`;
  return (
    <Link className="way" href={href}>
      {words.go[room]}
    </Link>
  );
}

/** What hands and eyes find: asked one by one, and each may be answered anew. */
function Checks({ view, write }: { readonly view: ClosingView; readonly write: Write }) {
  return (
    <section>
      <h2>{words.checks}</h2>
      {view.checks.map(({ check, holds }) => (
        <fieldset className="yes-no" key={check}>
          <legend>{words.ask[check]}</legend>
          <div className="keys two">
            {([true, false] as const).map((answer) => (
              <button
                key={String(answer)}
                type="button"
                className="answer-key"
                aria-pressed={holds === answer}
                onClick={() => write({ kind: "checked", body: { [check]: answer ? "yes" : "no" } })}
              >
                {answer ? words.yes : words.no}
              </button>
            ))}
          </div>
        </fieldset>
      ))}
    </section>
  );
}

/** Why a protector opened: a likely reason by one key, or in words. */
function Why({ protector, write }: { readonly protector: ClosingView["unanswered"][number]; readonly write: Write }) {
  const [reason, setReason] = useState("");
  const answer = (why: string) => write({ kind: "why", body: { [protector.protector]: why } });
  return (
    <section>
      <h2>{words.whyTitle(protector.says)}</h2>
      <div className="keys">
        {protector.reasons.slice(0, 4).map(({ reason: id, says }) => (
          <button key={id} type="button" className="big-key quiet" onClick={() => answer(id)}>
            {says}
          </button>
        ))}
      </div>
      <TextInput
        size="lg"
        label={words.whyOther}
        value={reason}
        onChange={(event) => setReason(event.currentTarget.value)}
      />
      <button
        type="button"
        className="big-key quiet"
        disabled={reason.trim() === ""}
        onClick={() => answer(reason.trim())}
      >
        {words.whyWrite}
      </button>
    </section>
  );
}
