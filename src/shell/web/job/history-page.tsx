import { Button, Textarea } from "@mantine/core";
import { useState } from "react";
import type { IssuedPaper } from "../../../core/ledger/index.ts";
import { text } from "../english.ts";
import { PhotoKey } from "../photo/photo-key.tsx";
import { PhotoView } from "../photo/photo-view.tsx";
import type { Write } from "./job-screen.tsx";
import type { OpenedJob } from "./use-job.ts";

/**
 * Everything that happened, newest last; anything can be taken back, and what was taken back stays to be seen. It waits for
 * nothing to be worked out: until then an event is told in the words of the ledger.
 */
export function HistoryPage({ job, write }: { readonly job: OpenedJob; readonly write: Write }) {
  const [note, setNote] = useState("");
  const words = text.history;
  const { record, ids, view } = job;
  const says = new Map<string, string[]>();
  for (const { event, says: line } of view?.told ?? []) {
    const id = ids[event - 1];
    if (id !== undefined) says.set(id, [...(says.get(id) ?? []), line]);
  }
  const undone = new Map(
    record.events.flatMap((event) =>
      event.kind === "withdraws" && !record.withdrawn.has(event.id) ? [[String(event.body), event.id]] : [],
    ),
  );
  const shown = record.events.filter(({ kind }) => kind !== "withdraws" && kind !== "practised");
  return (
    <>
      <h1>{text.tabs.history}</h1>
      {shown.length <= 1 && <p>{words.empty}</p>}
      <ol className="ledger">
        {shown.map((event) => {
          const by = undone.get(event.id);
          return (
            <li key={event.id} className={by === undefined ? "event" : "event undone"}>
              <time dateTime={event.time} className="number">
                {timeOf(event.time)}
              </time>
              <div>
                {event.kind === "photo" && <PhotoView {...photoIn(event.body)} />}
                {(says.get(event.id) ?? [plain(event.kind, event.body)]).map((line) => (
                  <div key={line}>{line}</div>
                ))}
                {by !== undefined && <span className="faint">{words.undone}</span>}
              </div>
              {event.kind !== "begins" && event.kind !== "issued" && (
                <button
                  type="button"
                  className="small-key"
                  onClick={() => write({ kind: "withdraws", body: by ?? event.id })}
                >
                  {by === undefined ? words.undo : words.again}
                </button>
              )}
            </li>
          );
        })}
      </ol>
      <Textarea
        size="lg"
        mt="lg"
        label={words.note}
        autosize
        minRows={2}
        value={note}
        onChange={(event) => setNote(event.currentTarget.value)}
      />
      <Button
        size="lg"
        mt="sm"
        disabled={note.trim() === ""}
        onClick={async () => {
          if (await write({ kind: "note", body: note.trim() })) setNote("");
        }}
      >
        {words.add}
      </Button>
      <PhotoKey job={record.id} />
    </>
  );
}

/** What a photo's event tells; one that was written otherwise names no photo that is here. */
function photoIn(body: unknown): { readonly hash: string; readonly at: string | undefined } {
  const { hash, at } = (body ?? {}) as { readonly hash?: unknown; readonly at?: unknown };
  return { hash: String(hash), at: typeof at === "string" ? at : undefined };
}

function timeOf(iso: string): string {
  return new Date(iso).toLocaleTimeString([], { hour: "2-digit", minute: "2-digit", hourCycle: "h23" });
}

/** An event in words where the engine has none: covers, plug, notes. */
function plain(kind: string, body: unknown): string {
  if (kind === "begins") return (body as { complaint: string }).complaint;
  if (kind === "issued") {
    const { paper, number } = body as IssuedPaper;
    return `${paper} ${number}`;
  }
  if (kind === "minded") return text.history.minded(Array.isArray(body) ? body.length : 0);
  if (kind === "photo") return photoIn(body).at ?? text.photo.plain;
  if (body === null || body === undefined || body === "") return kind;
  return `${kind}: ${flat(body)}`;
}

/** What an event tells, laid out in one line; of a hash its beginning. */
function flat(value: unknown): string {
  if (Array.isArray(value)) return value.map(flat).join(", ");
  if (typeof value === "object" && value !== null) {
    return Object.entries(value)
      .map(([key, held]) => `${key} ${flat(held)}`)
      .join(", ");
  }
  const text = String(value);
  return /^[0-9a-f]{64}$/.test(text) ? text.slice(0, 8) : text;
}
