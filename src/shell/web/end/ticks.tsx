import type { JobRecord } from "../../../core/ledger/index.ts";
import { text } from "../english.ts";
import type { Write } from "../job/job-screen.tsx";

/** Things done by hand that are written down as a note each, so that a job history tells them; since the last repair. */
export function useTicks(record: JobRecord, write: Write) {
  const counting = record.events.filter(({ id }) => !record.withdrawn.has(id));
  const repaired = counting.findLast(({ kind }) => kind === "did")?.id ?? "";
  const notes = counting.filter(({ id, kind }) => kind === "note" && id > repaired);
  const noteOf = (says: string) => notes.find(({ body }) => body === doneNote(says));
  return {
    isDone: (says: string) => noteOf(says) !== undefined,
    toggle: (says: string) => {
      const note = noteOf(says);
      return write(note === undefined ? { kind: "note", body: doneNote(says) } : { kind: "withdraws", body: note.id });
    },
  };
}

function doneNote(says: string): string {
  return `${text.end.doneNote} ${says}`;
}

/** One thing to do by hand: pressed when it is done, pressed again to take that back. */
export function Tick(props: { readonly says: string; readonly done: boolean; readonly onPress: () => void }) {
  return (
    <button type="button" className="tick" aria-pressed={props.done} onClick={props.onPress}>
      <svg viewBox="0 0 24 24" aria-hidden="true">
        <path d="M3 3h18v18h-18z" />
        {props.done && <path className="tick-mark" d="M6 12l4.5 5L18.5 6" />}
      </svg>
      <span>{props.says}</span>
    </button>
  );
}
