import type { Probe, ProbeState } from "./prediction.ts";

/** A probe named by its content, so that the same measurement always has the same id. */
export function probeOf(probe: Omit<Probe, "id">): Probe {
  const what =
    probe.measure === undefined
      ? [probe.from, probe.to].filter((point) => point !== undefined).join("–") || "plug"
      : `${probe.measure.cause}/${probe.measure.id}`;
  const joined = (probe.joinedWith ?? []).map((point) => `+${point}`).join("");
  return { ...probe, id: `${probe.quantity} ${what}${joined} | ${stateName(probe.state)}` };
}

/** The state of a probe in words that also serve as its key: `plug out, X3 pulled, door=1`. */
export function stateName(state: ProbeState): string {
  if (state.kind === "bench") return "on the bench";
  if (state.kind === "live") {
    const where = [state.step, state.condition, state.command === undefined ? undefined : `command ${state.command}`];
    return `live ${where.filter((word) => word !== undefined).join(" ")}`.trim();
  }
  const pulled = [...state.pulled].sort().map((plug) => `${plug} pulled`);
  const freed = [...state.freed].sort().map((part) => `${part} freed`);
  const hands = [...state.hands].sort(([a], [b]) => (a < b ? -1 : 1)).map(([input, value]) => `${input}=${value}`);
  return ["plug out", ...pulled, ...freed, ...hands].join(", ");
}
