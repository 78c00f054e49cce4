import { Link } from "wouter";
import { oddsInWords } from "../../words/odds.ts";
import type { FaultOdds } from "../engine/protocol.ts";
import { text } from "../english.ts";

const mostTold = 3;

/** The likeliest faults in one line, in sight on every step: what the last reading did to them stands here at once. */
export function FaultsLine({ odds, id }: { readonly odds: FaultOdds; readonly id: string }) {
  const told = [
    ...odds.parts,
    { says: text.faults.nothingWrong, p: odds.nothingWrong },
    { says: text.faults.unknown, p: odds.notOnThisSheet },
  ]
    .sort((a, b) => b.p - a.p)
    .slice(0, mostTold)
    .filter(({ p }) => p >= 0.01);
  return (
    <Link href={`/job/${id}/faults`} replace className="faults-line">
      <span className="unseen">{text.faults.now}: </span>
      <span role="status">{told.map(({ says, p }) => `${says}, ${oddsInWords(p)}`).join(" · ")}</span>
    </Link>
  );
}
