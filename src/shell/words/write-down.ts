import type { PlanQuestion } from "../../core/plan/index.ts";

/** The line to put into a job file for one question of a step, with a `?` where the answer goes. */
export function lineToWrite({ observation }: PlanQuestion): string {
  switch (observation.kind) {
    case "sign":
      return `- ${observation.witness}: {${observation.sign}: ?}`;
    case "look":
      return `- looked: {at: ${observation.at}, found: ?}`;
    case "answer":
      return `- answered: {${observation.slot}: ?}`;
    case "count":
      return `- counted: {from: ${observation.probe.from}, to: ${observation.probe.to}, good: ?, of: ?}`;
    case "reading": {
      const { probe } = observation;
      if (probe.measure !== undefined)
        return `- measured: {cause: ${probe.measure.cause}, what: ${probe.measure.id}, shows: ?}`;
      const where = probe.from === undefined ? [] : [`from: ${probe.from}`, `to: ${probe.to}`];
      const quantity = shownBy[probe.quantity] ?? "shows";
      const state =
        probe.state.kind === "live"
          ? [`in: ${probe.state.step ?? probe.state.condition ?? "?"}`]
          : probe.state.kind === "dead"
            ? [
                ...(probe.state.pulled.length > 0 ? [`pulled: [${probe.state.pulled.join(", ")}]`] : []),
                ...(probe.state.freed.length > 0 ? [`freed: [${probe.state.freed.join(", ")}]`] : []),
              ]
            : [];
      return `- measured: {${[...where, ...state, `${quantity}: ?`].join(", ")}}`;
    }
  }
}

/** Keys of a job file that say what was read; all else is `shows`. */
const shownBy: Readonly<Record<string, string>> = {
  volts: "volts",
  watts: "watts",
  amps: "amps",
  "leakage amps": "leakage",
  "insulation ohms": "insulation",
  farads: "farads",
};
