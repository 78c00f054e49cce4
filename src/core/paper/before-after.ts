import { formatShown } from "../meter/index.ts";
import { stateName } from "../predict/index.ts";
import type { Observation } from "../sign/index.ts";
import type { Block } from "./paper.ts";
import { capital, type PaperFacts } from "./paper-facts.ts";

type Reading = Extract<Observation, { kind: "reading" | "count" }>;

/** Every place that was measured, before the first repair and after the last reading since; none where nothing was. */
export function readingsBlock(facts: PaperFacts): Block[] {
  const { state } = facts.worked;
  const first = state.repairs[0]?.after ?? state.observations.length;
  const rows = new Map<string, { readonly place: string; before?: string; after?: string }>();
  state.observations.forEach(({ observation }, index) => {
    if (observation.kind !== "reading" && observation.kind !== "count") return;
    const { id } = observation.probe;
    const row = rows.get(id) ?? { place: capital(placeText(facts, observation)) };
    rows.set(id, { ...row, [index < first ? "before" : "after"]: shownText(observation) });
  });
  if (rows.size === 0) return [];
  return [
    { is: "heading", text: "Readings" },
    {
      is: "table",
      head: [{ says: "Where" }, { says: "Before", isFigures: true }, { says: "After", isFigures: true }],
      rows: [...rows.values()].map(({ place, before = "–", after = "–" }) => [place, before, after]),
    },
    { is: "note", text: "For whoever works on it next. OL: no path, above the meter's range. –: not measured then." },
  ];
}

/** A reading of one part, with its place: for a claim. */
export function readingText(facts: PaperFacts, reading: Reading): string {
  return `${capital(placeText(facts, reading))}: ${shownText(reading)}`;
}

function placeText({ worked }: PaperFacts, { probe }: Reading): string {
  const machines = worked.case.candidates.map(({ machine }) => machine);
  if (probe.measure !== undefined) {
    const { cause, id } = probe.measure;
    const found = machines.flatMap(({ causes }) => causes).find((one) => one.id === cause);
    return found?.measures.find((one) => one.id === id)?.says ?? `${cause}, ${id}`;
  }
  const says = (id: string): string =>
    machines.flatMap(({ points }) => points).find((point) => point.id === id)?.says ?? id;
  const state = stateName(probe.state);
  if (probe.from === undefined || probe.to === undefined) return `${probe.quantity} at the plug (${state})`;
  const from = [probe.from, ...(probe.joinedWith ?? [])].map(says).join(" and ");
  return `${from} to ${says(probe.to)} (${state})`;
}

function shownText(reading: Reading): string {
  return reading.kind === "count"
    ? `${reading.good} good of ${reading.of}`
    : formatShown(reading.shown, reading.probe.quantity);
}
