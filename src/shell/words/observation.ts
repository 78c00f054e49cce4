import { type Quantity, unitOfQuantity } from "../../core/meter/index.ts";
import type { Probe } from "../../core/predict/index.ts";
import { formatAmount } from "../../core/quantity/index.ts";
import type { SignRule } from "../../core/sheet/index.ts";
import type { Observation } from "../../core/sign/index.ts";

/** What was learned, as one line of a job's history: "told: heat: cold", "X3.1 to X3.3: 26.4 Ω (plug out, X3 pulled)". */
export function observationInWords(observation: Observation, signs: readonly SignRule[]): string {
  switch (observation.kind) {
    case "sign": {
      const ask = signs.find(({ id }) => id === observation.sign)?.ask ?? observation.sign;
      return `${observation.witness}: ${ask} ${observation.answer}`;
    }
    case "reading":
      return `measured ${placeInWords(observation.probe)}: ${shownInWords(observation)}`;
    case "look":
      return `looked at ${observation.at}${observation.mode === undefined ? "" : ` (${observation.mode})`}: ${observation.found === "bad" ? "bad" : "looks good"}`;
    case "answer":
      return `${observation.slot}: ${observation.variant}`;
    case "count":
      return `counted ${placeInWords(observation.probe)}: ${observation.good} good of ${observation.of}`;
  }
}

/** "26.4 Ω", "OL", "7 good of 8". */
export function shownInWords({ shown, probe }: Extract<Observation, { kind: "reading" }>): string {
  switch (shown.kind) {
    case "value":
      return formatAmount(shown.value, unitOfQuantity(probe.quantity));
    case "over limit":
      return "OL";
    case "word":
      return `"${shown.word}"`;
    case "count":
      return `${shown.good} good of ${shown.of}`;
  }
}

/** "X3.1 to X3.3 (plug out, X3 pulled)", "insulation, heater.a to heater.case (plug out, wires off at heater)", "watts at the plug (step heat)". */
export function placeInWords(probe: Probe): string {
  const points =
    probe.measure !== undefined
      ? `${probe.measure.cause}, ${probe.measure.id}`
      : probe.from === undefined
        ? atPlug(probe.quantity)
        : `${[probe.from, ...(probe.joinedWith ?? [])].join(" + ")} to ${probe.to ?? ""}`;
  const { state } = probe;
  if (probe.measure !== undefined) return points;
  if (state.kind === "bench") return `${points} (on the bench)`;
  if (state.kind === "live")
    return `${points} (LIVE, ${state.step ?? state.condition ?? `commanded: ${state.command}`})`;
  const pulled = state.pulled.length === 0 ? "" : `, ${state.pulled.join(" and ")} pulled`;
  const freed = state.freed.length === 0 ? "" : `, wires off at ${state.freed.join(" and ")}`;
  return `${what(probe.quantity)}${points} (plug out${pulled}${freed})`;
}

/** Named where it is not plain ohms: the same two points are read for more than one thing. */
function what(quantity: Quantity): string {
  if (quantity === "insulation ohms") return "insulation, ";
  return quantity === "farads" ? "microfarads, " : "";
}

function atPlug(quantity: Quantity): string {
  return quantity === "leakage amps" ? "leakage, clamp round the cord" : `${quantity} at the plug`;
}
