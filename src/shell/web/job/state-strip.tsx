import type { JobView } from "../engine/protocol.ts";
import { text } from "../english.ts";
import type { Write } from "./job-screen.tsx";

/** PLUG OUT or LIVE, as it stands now, and the act that changes it. */
export function StateStrip({ view, write }: { readonly view: JobView; readonly write: Write }) {
  const { energy, provedDead } = view.plan;
  const words = text.state;
  const live = energy === "live";
  return (
    <div className={live ? "state live" : "state out"}>
      <div>
        <strong>{live ? words.live : words.out}</strong>
        {live ? <span>{words.countsAsLive}</span> : <span>{provedDead ? words.provedDead : words.notProved}</span>}
      </div>
      <div className="state-acts">
        {(live || !provedDead) && (
          <button type="button" onClick={() => write({ kind: "isolated", body: "two-pole tester" })}>
            {words.provedNow}
          </button>
        )}
        {!live && (
          <button type="button" onClick={() => write({ kind: "energised", body: "RCD lead" })}>
            {words.energise}
          </button>
        )}
      </div>
    </div>
  );
}
