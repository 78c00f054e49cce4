import { useCallback, useState } from "react";
import { Link } from "wouter";
import type { WrittenEvent } from "../../../core/ledger/index.ts";
import { text } from "../english.ts";
import { FaultsPage } from "../faults/faults-page.tsx";
import { useApp } from "../shell/app-state.tsx";
import { NextPage } from "../step/next-page.tsx";
import { DonePage } from "./done-page.tsx";
import { HistoryPage } from "./history-page.tsx";
import { StateStrip } from "./state-strip.tsx";
import { type OpenedJob, useJob } from "./use-job.ts";

/** One way to write on the job in hand. Tells at once when the device refused, and then nothing was written. */
export type Write = (...events: readonly WrittenEvent[]) => Promise<boolean>;

export interface PageProps {
  readonly job: OpenedJob & { readonly view: NonNullable<OpenedJob["view"]> };
  readonly write: Write;
}

/** One job: its state always on top, its four pages at the foot. */
export function JobScreen({ id, tab }: { readonly id: string; readonly tab: string }) {
  const { ledger } = useApp();
  const [where, setWhere] = useState<"telephone" | "machine">("machine");
  const [refused, setRefused] = useState("");
  const job = useJob(id, where);
  const write = useCallback<Write>(
    async (...events) => {
      try {
        await ledger.write(id, ...events);
        setRefused("");
        return true;
      } catch (error) {
        setRefused(error instanceof Error ? error.message : String(error));
        return false;
      }
    },
    [ledger, id],
  );
  const view = job?.view;
  return (
    <>
      <header className="job-head">
        <div className="job-line">
          <Link href="/">‹ {text.places.jobs}</Link>
          {job !== undefined && (
            <span>
              <b className="number">{job.record.head.number}</b> {job.record.head.complaint}
            </span>
          )}
        </div>
        {view !== undefined && <StateStrip view={view} write={write} />}
      </header>
      <main className="column">
        {refused !== "" && (
          <p className="trouble" role="alert">
            {text.failed} {refused}
          </p>
        )}
        {job?.issues.map((issue) => (
          <pre className="trouble" role="alert" key={issue}>
            {issue}
          </pre>
        ))}
        <p className="thinking" role="status">
          {job?.thinking && job.issues.length === 0 ? text.step.thinking : ""}
        </p>
        {job !== undefined && view !== undefined && (
          <Page tab={tab} job={{ ...job, view }} write={write} where={where} setWhere={setWhere} />
        )}
      </main>
      <nav className="feet">
        {tabs.map((one) => (
          <Link
            key={one}
            href={`/job/${id}/${one}`}
            replace
            className={one === tab ? "foot here" : "foot"}
            aria-current={one === tab ? "page" : undefined}
          >
            {text.tabs[one]}
          </Link>
        ))}
      </nav>
    </>
  );
}

const tabs = ["next", "faults", "done", "history"] as const;

function Page(
  props: PageProps & {
    readonly tab: string;
    readonly where: "telephone" | "machine";
    readonly setWhere: (where: "telephone" | "machine") => void;
  },
) {
  switch (props.tab) {
    case "faults":
      return <FaultsPage job={props.job} write={props.write} />;
    case "done":
      return <DonePage job={props.job} write={props.write} />;
    case "history":
      return <HistoryPage job={props.job} write={props.write} />;
    default:
      return <NextPage {...props} />;
  }
}
