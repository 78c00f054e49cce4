import { lazy, type ReactNode, useCallback, useEffect, useState } from "react";
import { Link } from "wouter";
import type { WrittenEvent } from "../../../core/ledger/index.ts";
import { text } from "../english.ts";
import { FaultsLine } from "../faults/faults-line.tsx";
import { FaultsPage } from "../faults/faults-page.tsx";
import { Troubles } from "../shell/troubles.tsx";
import { useHeightTold } from "../shell/use-height-told.ts";
import { NextPage } from "../step/next-page.tsx";
import { isOnTelephone } from "../telephone/on-telephone.ts";
import { DonePage } from "./done-page.tsx";
import { HistoryPage } from "./history-page.tsx";
import { StateStrip } from "./state-strip.tsx";
import { type OpenedJob, useJob } from "./use-job.ts";
import { useWriting } from "./use-writing.ts";

const CircuitPage = lazy(async () => ({ default: (await import("../circuit/circuit-page.tsx")).CircuitPage }));

/**
 * One way to write on the job in hand: gives the ids of what was written. Tells at once when the device refused, and then
 * nothing was written and nothing is given.
 */
export type Write = (...events: readonly WrittenEvent[]) => Promise<readonly string[] | undefined>;

export interface PageProps {
  readonly job: OpenedJob & { readonly view: NonNullable<OpenedJob["view"]> };
  /** Writes, and has the job worked out anew. */
  readonly write: Write;
}

/** Writing on a step that asks several things: worked out anew only when all of it is there, or enough. */
export interface StepPen {
  readonly write: Write;
  /** Writes what is one answer of several: the step stays as it is. */
  readonly gather: Write;
  readonly enough: () => void;
  /** Nothing may be pressed: what is asked next is being worked out. */
  readonly busy: boolean;
}

/** One job: its state always on top, its four pages at the foot. */
export function JobScreen({ id, tab }: { readonly id: string; readonly tab: string }) {
  const [where, setWhere] = useState<"telephone" | "machine">("machine");
  const [held, setHeld] = useState(false);
  const job = useJob(id, where, held);
  const { put, refused, onItsWay, told } = useWriting(id, job?.record);
  const enough = useCallback(() => setHeld(false), []);
  const write = useCallback<Write>(
    (...events) => {
      setHeld(false);
      return put(...events);
    },
    [put],
  );
  const gather = useCallback<Write>(
    (...events) => {
      setHeld(true);
      return put(...events);
    },
    [put],
  );
  // Another page shows what counts now.
  useEffect(() => {
    if (tab !== "next") enough();
  }, [tab, enough]);
  const feet = useHeightTold("--feet");
  const view = job?.view;
  // At the telephone there is no plug within reach.
  const onTelephone = tab === "next" && view !== undefined && isOnTelephone(where, view);
  const thinking = job?.thinking === true;
  const pen: StepPen = { write, gather, enough, busy: thinking || (onItsWay && !held) };
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
        {view !== undefined && !onTelephone && (
          <StateStrip
            energy={view.plan.energy}
            provedDead={view.plan.provedDead}
            write={write}
            {...(job?.record.head.practice === undefined ? holdOf(id, view) : {})}
          />
        )}
        {job?.odds !== undefined && job.record.end === undefined && <FaultsLine odds={job.odds} id={id} />}
      </header>
      <main className="column">
        <Troubles refused={refused} />
        {told.length > 0 && (
          <div className="trouble" role="alert">
            {told.map((line) => (
              <p key={line}>{line}</p>
            ))}
          </div>
        )}
        <Troubles issues={job?.issues ?? []} />
        {job !== undefined && tab === "history" && <HistoryPage job={job} write={write} />}
        {job !== undefined && view !== undefined && tab !== "history" && (
          <Page tab={tab} job={{ ...job, view }} pen={pen} where={where} setWhere={setWhere} />
        )}
      </main>
      <nav className="feet" ref={feet}>
        <p className={thinking ? "thinking on" : "thinking"} role="status">
          {thinking ? text.step.thinking : ""}
        </p>
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

/** After a repair the way to the tests stands where the machine is plugged in, until they were made; a practice machine has none. */
function holdOf(id: string, { verification }: NonNullable<OpenedJob["view"]>): { readonly hold?: ReactNode } {
  if (verification === undefined || verification.mayEnergise || verification.isUntouched) return {};
  return {
    hold: (
      <Link className="hold-link" href={`/closing/${id}`}>
        {text.end.firstTest}
      </Link>
    ),
  };
}

const tabs = ["next", "faults", "done", "history"] as const;

function Page(
  props: Omit<PageProps, "write"> & {
    readonly tab: string;
    readonly pen: StepPen;
    readonly where: "telephone" | "machine";
    readonly setWhere: (where: "telephone" | "machine") => void;
  },
) {
  const { job, pen } = props;
  switch (props.tab) {
    case "faults":
      return <FaultsPage job={job} write={pen.write} />;
    case "circuit":
      return (
        <fieldset className="plain" disabled={pen.busy}>
          <CircuitPage job={job} write={pen.write} />
        </fieldset>
      );
    case "done":
      return (
        <fieldset className="plain" disabled={pen.busy}>
          <DonePage job={job} write={pen.write} />
        </fieldset>
      );
    default:
      return <NextPage {...props} />;
  }
}
