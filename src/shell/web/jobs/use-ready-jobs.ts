import { useEffect } from "react";
import { recordOf, writtenJob } from "../../../core/ledger/index.ts";
import type { JobLine } from "../../store/database.ts";
import { makeReady } from "../engine/client.ts";
import { useApp } from "../shell/app-state.tsx";

/** Jobs that are made ready while their list is looked at. */
const MOST = 3;

/** Has the first jobs of a list worked at beforehand: the one that is opened then has its step sooner. */
export function useReadyJobs(jobs: readonly JobLine[]): void {
  const { ledger } = useApp();
  const ids = jobs
    .filter(({ loose }) => loose !== true)
    .slice(0, MOST)
    .map(({ id }) => id)
    .join(" ");
  useEffect(() => {
    if (ids === "") return;
    let current = true;
    Promise.all(ids.split(" ").map((id) => ledger.eventsOf(id))).then((all) => {
      const records = all.map((events) => recordOf(events)).filter((record) => record !== undefined);
      if (current) makeReady(records.map((record) => writtenJob(record).text));
    });
    return () => {
      current = false;
    };
  }, [ids, ledger]);
}
