import { useCallback, useEffect, useMemo, useState } from "react";
import { type JobRecord, recordOf, writtenJob } from "../../../core/ledger/index.ts";
import { askEngine, makeReady, Replaced } from "../engine/client.ts";
import type { FaultOdds, JobView } from "../engine/protocol.ts";
import { useApp } from "../shell/app-state.tsx";
import { useLive } from "../shell/use-live.ts";

/** A job as the screens show it: its record, and what the engine makes of it. */
export interface OpenedJob {
  readonly record: JobRecord;
  /** The record as a job file. */
  readonly text: string;
  /** Event id by its place in the job file, as `view.told` counts. */
  readonly ids: readonly string[];
  /** The last that was worked out; it is behind the record while `thinking`, and while the rest of a step is waited for. */
  readonly view: JobView | undefined;
  /** How likely each fault is: ahead of the view while the next step is being worked out. */
  readonly odds: FaultOdds | undefined;
  readonly thinking: boolean;
  /** Counts what was worked out: a view with another number is another view. */
  readonly serial: number;
  readonly issues: readonly string[];
}

interface Worked {
  readonly text: string;
  readonly where: string;
  readonly serial: number;
  readonly view: JobView | undefined;
  readonly issues: readonly string[];
}

/**
 * Follows one job: reads its events, has them worked out anew whenever one is added. Undefined until it is read.
 *
 * @param held  more is coming to the same step: nothing is worked out until then
 */
export function useJob(id: string, where: "telephone" | "machine", held: boolean): OpenedJob | undefined {
  const { ledger } = useApp();
  const events = useLive(useCallback(() => ledger.eventsOf(id), [ledger, id]));
  const record = useMemo(() => (events === undefined ? undefined : recordOf(events)), [events]);
  const written = useMemo(() => (record === undefined ? undefined : writtenJob(record)), [record]);
  const [worked, setWorked] = useState<Worked>();
  const [odds, setOdds] = useState<FaultOdds>();

  const text = written?.text;
  useEffect(() => {
    if (text === undefined || held) return;
    let current = true;
    askEngine({ do: "odds", text }, `${id} odds`).then(
      (answer) => {
        if (current && answer !== undefined) setOdds(answer);
      },
      () => undefined,
    );
    askEngine({ do: "work out", text, where }, id)
      .then((answer) => {
        if (!current) return;
        // A view that the device had kept comes before the engine has thought of the job: it does so while the step is read.
        makeReady([text]);
        setWorked((before) => ({
          text,
          where,
          serial: (before?.serial ?? 0) + 1,
          view: answer.ok ? answer.view : before?.view,
          issues: answer.ok ? [] : answer.issues,
        }));
      })
      .catch((error: Error) => {
        if (current && !(error instanceof Replaced))
          setWorked({ text, where, serial: 0, view: undefined, issues: [error.message] });
      });
    return () => {
      current = false;
    };
  }, [id, text, where, held]);

  if (record === undefined || written === undefined) return undefined;
  return {
    record,
    text: written.text,
    ids: written.ids,
    view: worked?.view,
    odds,
    thinking: !held && (worked?.text !== text || worked?.where !== where),
    serial: worked?.serial ?? 0,
    issues: worked?.issues ?? [],
  };
}
