import type { ReactNode } from "react";
import { text } from "../english.ts";
import type { Write } from "./job-screen.tsx";

/**
 * PLUG OUT or LIVE, as it stands now, and the act that changes it: one line.
 *
 * @param hold  what stands in place of the key that plugs in, where that is not to be done yet
 */
export function StateStrip({
  energy,
  provedDead,
  hold,
  write,
}: {
  readonly energy: "plug out" | "live";
  readonly provedDead: boolean;
  readonly hold?: ReactNode;
  readonly write: Write;
}) {
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
          (hold ?? (
            <button type="button" onClick={() => write({ kind: "energised", body: "RCD lead" })}>
              {words.energise}
            </button>
          ))
        )}
      </div>
    </div>
  );
}
