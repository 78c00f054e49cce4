import { Textarea } from "@mantine/core";
import { useState } from "react";
import { Link } from "wouter";
import type { JobEnd } from "../../../core/ledger/index.ts";
import { text } from "../english.ts";
import type { PageProps, Write } from "../job/job-screen.tsx";
import { Tick, useTicks } from "./ticks.tsx";

/** The key that ends a job in one of the ways it can end. */
export function EndKey(props: {
  readonly end: JobEnd;
  readonly write: Write;
  readonly disabled: boolean;
  readonly why?: string;
  readonly says?: string;
}) {
  const { end, write, disabled, why = "", says = text.end.keys[end] } = props;
  const said = why.trim();
  const note = said === "" ? [] : [{ kind: "note", body: said }];
  const left = { kind: "left", body: { "waiting for": said, "made safe": text.end.safe } };
  return (
    <button
      type="button"
      className={end === "mended" ? "big-key" : "big-key quiet"}
      disabled={disabled}
      onClick={() => write(...(end === "waiting" ? [left] : note), { kind: "closes", body: end })}
    >
      {says}
    </button>
  );
}

/** Leaving without a finished repair: it must be safe first, and somebody waits for something, or nobody does. */
export function LeaveKeys({ job, write }: PageProps) {
  const [why, setWhy] = useState("");
  const { isDone, toggle } = useTicks(job.record, write);
  const { covers, work } = job.view;
  const open = [...work.open].reverse();
  const safe = open.length === 0 && text.end.safe.every(isDone);
  return (
    <section>
      <h2>{text.end.leaveTitle}</h2>
      <ul className="verify">
        {open.map((id) => (
          <li key={id}>
            <Tick
              says={text.end.close(covers[id] ?? id)}
              done={false}
              onPress={() => write({ kind: "closed", body: id })}
            />
          </li>
        ))}
        {text.end.safe.map((says) => (
          <li key={says}>
            <Tick says={says} done={isDone(says)} onPress={() => toggle(says)} />
          </li>
        ))}
      </ul>
      <Textarea
        size="lg"
        label={text.end.why}
        autosize
        minRows={2}
        value={why}
        onChange={(event) => setWhy(event.currentTarget.value)}
      />
      <EndKey end="waiting" write={write} why={why} disabled={!safe || why.trim() === ""} />
      {safe && why.trim() === "" && <p className="faint">{text.end.waitingFor}</p>}
      <EndKey end="stopped" write={write} why={why} disabled={!safe} />
      {job.record.head.practice === undefined && (
        <Link className="way" href={`/closing/${job.record.id}/notice`}>
          {text.end.notice}
        </Link>
      )}
    </section>
  );
}
