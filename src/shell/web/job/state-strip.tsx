import type { JobView } from "../engine/protocol.ts";
import { text } from "../english.ts";
import type { Write } from "./job-screen.tsx";

/** PLUG OUT or LIVE, as it stands now, and the act that changes it: one line. */
export function StateStrip({ view, write }: { readonly view: JobView; readonly write: Write }) {
  const { energy, provedDead } = view.plan;
  const words = text.state;
  const live = energy === "live";
  return (
    <div className={live ? "state live" : "state out"}>
      <div>
        <strong>{live ? words.live : words.out}</strong>
        <span>{live ? words.countsAsLive : provedDead ? words.provedDead : words.notProved}</span>
        {live || !provedDead ? (
          <button type="button" onClick={() => write({ kind: "isolated", body: "two-pole tester" })}>
            {words.provedNow}
          </button>
        ) : (
          <button type="button" onClick={() => write({ kind: "energised", body: "RCD lead" })}>
            {words.energise}
          </button>
        )}
      </div>
    </div>
  );
}
