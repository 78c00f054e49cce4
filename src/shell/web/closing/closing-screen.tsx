import "../look/closing.css";
import { useEffect, useRef } from "react";
import { Link } from "wouter";
import type { WrittenEvent } from "../../../core/ledger/index.ts";
import type { ClosingView } from "../engine/closing-view.ts";
import { closingText } from "../english-closing.ts";
import type { Write } from "../job/job-screen.tsx";
import { StateStrip } from "../job/state-strip.tsx";
import type { AskedJob } from "../job/use-asked.ts";
import { useWriting } from "../job/use-writing.ts";
import { Troubles } from "../shell/troubles.tsx";
import { GatePage } from "./gate-page.tsx";
import { NoticePage } from "./notice-page.tsx";
import { ProofPage } from "./proof-page.tsx";
import { TestsPage } from "./tests-page.tsx";
import { useClosing } from "./use-closing.ts";

/** What every room of the way out is given. */
export interface RoomProps {
  readonly id: string;
  readonly job: AskedJob<ClosingView> & { readonly record: NonNullable<AskedJob<ClosingView>["record"]> };
  readonly view: ClosingView;
  readonly write: Write;
  /** Takes back what the event at that place of the job file told. */
  readonly takeBack: (place: number) => void;
}

const rooms = ["tests", "proof", "gate"] as const;

/** From the repair to the door: the tests, the proof, the gate; and the notice where it is not mended. */
export function ClosingScreen({ id, room }: { readonly id: string; readonly room: string }) {
  const job = useClosing(id);
  const { record, view, thinking, serial, issues } = job;
  const { put, refused, onItsWay } = useWriting(id, record);
  useNextInSight(serial, room);
  const takeBack = (place: number) => {
    const event = job.ids[place - 1];
    if (event !== undefined) put({ kind: "withdraws", body: event } satisfies WrittenEvent);
  };
  const busy = thinking || onItsWay;
  const words = closingText;
  return (
    <>
      <header className="job-head">
        <div className="job-line">
          <Link href={`/job/${id}`}>‹ {words.toJob}</Link>
          {record !== undefined && (
            <span>
              <b className="number">{record.head.number}</b> {record.head.complaint}
            </span>
          )}
        </div>
        {view !== undefined && (
          <StateStrip
            energy={view.energy}
            provedDead={view.provedDead}
            write={put}
            {...(view.mayEnergise || view.isUntouched || view.repair === undefined
              ? {}
              : { hold: <span className="hold">{view.hasFailed ? words.holdFailed : words.hold}</span> })}
          />
        )}
      </header>
      <main className="column closing">
        <Troubles refused={refused} issues={issues} />
        {record !== undefined && view !== undefined && (
          <fieldset className="plain" disabled={busy && room !== "proof"}>
            <Room room={room} id={id} job={{ ...job, record }} view={view} write={put} takeBack={takeBack} />
          </fieldset>
        )}
      </main>
      <nav className="feet">
        <p className={thinking ? "thinking on" : "thinking"} role="status">
          {thinking && issues.length === 0 ? words.working : ""}
        </p>
        {rooms.map((one) => (
          <Link
            key={one}
            href={`/closing/${id}/${one}`}
            replace
            className={one === room ? "foot here" : "foot"}
            aria-current={one === room ? "page" : undefined}
          >
            {words.rooms[one]}
          </Link>
        ))}
      </nav>
    </>
  );
}

function Room({ room, ...props }: RoomProps & { readonly room: string }) {
  switch (room) {
    case "proof":
      return <ProofPage {...props} />;
    case "gate":
      return <GatePage {...props} />;
    case "notice":
      return <NoticePage {...props} />;
    default:
      return <TestsPage {...props} />;
  }
}

/** What is to be done next is brought into sight, with the keyboard, where the key that was pressed last is gone. */
function useNextInSight(serial: number, room: string): void {
  const shown = useRef({ serial, room });
  useEffect(() => {
    const before = shown.current;
    shown.current = { serial, room };
    if (room !== before.room) {
      window.scrollTo(0, 0);
      return;
    }
    if (serial === before.serial || before.serial === 0 || document.activeElement !== document.body) return;
    document.getElementById("step")?.focus();
  }, [serial, room]);
}
