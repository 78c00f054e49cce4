import type { AgainstSheet, PowerAnalysis, Stretch } from "../powerlog/index.ts";
import type { LoggedPower } from "./closing-event.ts";

/** More stretches than these make no clearer record (our own choice); the longest are kept. */
const MOST_RUNS = 24;

/** What is written down of a log: whole seconds and watts, what ran longest, and what the sheet's programme says to it. */
export function loggedPower(file: string, analysis: PowerAnalysis, against: AgainstSheet | undefined): LoggedPower {
  const { seconds, kilowattHours, volts, stretches } = analysis;
  const ran = stretches.filter(({ load }) => load !== "unknown" && load !== "standing by");
  const longest = new Set([...ran].sort((a, b) => b.onSeconds - a.onSeconds).slice(0, MOST_RUNS));
  return {
    file,
    seconds: Math.round(seconds),
    kilowattHours: Number(kilowattHours.toFixed(3)),
    ...(volts === undefined ? {} : { volts: Math.round(volts) }),
    runs: ran.filter((run) => longest.has(run)).map(roundedRun),
    steps: (against?.steps ?? []).map(({ step, says, seen }) => ({
      step,
      says,
      ...(seen === undefined ? {} : { watts: Math.round(seen.watts) }),
    })),
    hides: against?.hides ?? [],
  };
}

function roundedRun({ load, from, to, watts }: Stretch): LoggedPower["runs"][number] {
  return { load, from: Math.round(from), to: Math.round(to), watts: Math.round(watts) };
}
