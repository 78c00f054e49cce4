import { FileButton } from "@mantine/core";
import { useState } from "react";
import type { LoggedPower } from "../../../core/ledger/index.ts";
import { askEngine } from "../engine/client.ts";
import type { PowerLogView } from "../engine/power-log-view.ts";
import { closingText } from "../english-closing.ts";
import type { RoomProps } from "./closing-screen.tsx";
import { Faults } from "./faults.tsx";
import { LogFinding } from "./log-finding.tsx";
import { useCheckedWrite } from "./use-checked-write.ts";

const words = closingText.proof.log;
/** As on the command line: half a year at a sample every ten seconds. */
const LARGEST_BYTES = 64e6;

/** A log read and held against the sheet's programme; what it shows is kept when a person says so, and shown again ever after. */
export function PowerLogPart({ job, write }: RoomProps) {
  const [log, setLog] = useState<{ readonly file: string; readonly text: string }>();
  const [shown, setShown] = useState<PowerLogView>();
  const [said, setSaid] = useState("");
  const { put, faults } = useCheckedWrite(write);

  const read = async (file: string, text: string, column?: string) => {
    if (job.text === undefined) return;
    setSaid(words.reading);
    const asked = {
      do: "power log",
      text: job.text,
      file,
      log: text,
      ...(column === undefined ? {} : { column }),
    } as const;
    try {
      const answer = await askEngine(asked);
      setShown(answer.ok ? answer.view : undefined);
      setSaid(answer.ok ? "" : answer.issues.join("\n"));
    } catch (error) {
      setSaid(error instanceof Error ? error.message : String(error));
    }
  };
  const choose = async (file: File | null) => {
    if (file === null) return;
    if (file.size > LARGEST_BYTES) {
      setSaid(words.tooLarge);
      return;
    }
    const text = await file.text();
    setLog({ file: file.name, text });
    await read(file.name, text);
  };
  const keep = async () => {
    if (shown !== undefined && (await put(shown.logged))) setShown(undefined);
  };
  const { record } = job;
  const counting = record.events.filter(({ id }) => !record.withdrawn.has(id));
  // A log from before the last repair says nothing of it.
  const kept = counting.findLast(({ kind }) => kind === "logged" || kind === "did");
  return (
    <>
      <p>{words.about}</p>
      <FileButton onChange={choose} accept=".csv,.tsv,.txt,text/csv,text/plain">
        {({ onClick }) => (
          <button type="button" className="big-key quiet" onClick={onClick}>
            {words.choose}
          </button>
        )}
      </FileButton>
      <pre className="said" role="status">
        {said}
      </pre>
      {shown !== undefined && log !== undefined && (
        <>
          {shown.columns.length > 1 && (
            <fieldset className="plain">
              <legend>{words.column}</legend>
              {shown.columns.map((column) => (
                <button
                  key={column}
                  type="button"
                  className="small-key"
                  aria-pressed={column === shown.column}
                  onClick={() => read(log.file, log.text, column)}
                >
                  {column === shown.column ? <b>{column}</b> : column}
                </button>
              ))}
            </fieldset>
          )}
          {shown.trust.map((line) => (
            <p key={line}>{line}</p>
          ))}
          <LogFinding log={findingIn(shown.logged.body)} samples={shown.samples} />
          <Faults faults={faults} />
          <div className="keys two">
            <button type="button" className="big-key" onClick={keep}>
              {words.write}
            </button>
            <button type="button" className="big-key quiet" onClick={() => setShown(undefined)}>
              {words.leave}
            </button>
          </div>
        </>
      )}
      {shown === undefined && kept?.kind === "logged" && <LogFinding log={findingIn(kept.body)} />}
    </>
  );
}

/** What was written of a log, in the words of a job file. */
function findingIn(body: unknown): LoggedPower {
  const { "kilowatt hours": kilowattHours, ...rest } = body as Omit<LoggedPower, "kilowattHours"> & {
    readonly "kilowatt hours": number;
  };
  return { ...rest, kilowattHours };
}
