import { Button, FileButton } from "@mantine/core";
import { useCallback, useState } from "react";
import { sentence } from "../../../core/issue/index.ts";
import { copiedPhoto, photoOf, readCopy, writeCopy } from "../../store/copy-file.ts";
import { text } from "../english.ts";
import { useApp } from "./app-state.tsx";
import { saveFile } from "./save-file.ts";
import { useLive } from "./use-live.ts";

/** Days after which the last copy outside the browser counts as old (our own choice). */
const OLD_DAYS = 7;

/** A copy of everything as a file, and back: what the browser keeps, the browser can lose. */
export function Copies() {
  const { db, ledger } = useApp();
  const [said, setSaid] = useState("");
  const copied = useLive(useCallback(async () => (await db.settings.get("copied"))?.value as string | undefined, [db]));
  const words = text.copies;
  const days = copied === undefined ? undefined : Math.floor((Date.now() - Date.parse(copied)) / 86_400_000);

  const save = async () => {
    const events = await db.events.toArray();
    const photos = await Promise.all((await db.photos.toArray()).map(copiedPhoto));
    const file = new Blob([writeCopy({ events, photos })], { type: "application/x-ndjson" });
    saveFile(`faultwright-${new Date().toISOString().slice(0, 10)}.jsonl`, file);
    await db.settings.put({ key: "copied", value: new Date().toISOString() });
    setSaid(words.saved(events.length, photos.length));
  };
  const load = async (file: File | null) => {
    if (file === null) return;
    const read = readCopy(await file.text(), file.name);
    if (!read.ok) {
      setSaid(read.issues.map(sentence).join("\n"));
      return;
    }
    const { events, photos } = read.value;
    await db.photos.bulkPut(photos.map(photoOf));
    await ledger.add(events);
    setSaid(words.loaded(events.length));
  };

  return (
    <section>
      <h2>{words.title}</h2>
      <p>{days === undefined ? words.never : words.last(days)}</p>
      {(days === undefined || days >= OLD_DAYS) && <p className="trouble">{words.old}</p>}
      <div className="form">
        <Button size="lg" onClick={save}>
          {words.save}
        </Button>
        <FileButton onChange={load} accept=".jsonl,application/x-ndjson">
          {(props) => (
            <Button size="lg" variant="outline" {...props}>
              {words.load}
            </Button>
          )}
        </FileButton>
      </div>
      <pre className="said" role="status">
        {said}
      </pre>
    </section>
  );
}
