import type { Quantity } from "../../core/meter/index.ts";
import type { PlanQuestion } from "../../core/plan/index.ts";

/** The line that a learner types to have one question of a step answered. */
export function typedLine({ observation }: Pick<PlanQuestion, "observation">): string {
  switch (observation.kind) {
    case "sign":
      return `${observation.witness === "seen" ? "watch" : "ask"} ${observation.sign}`;
    case "look":
      return `look ${observation.at}`;
    case "answer":
      return `look ${observation.slot}`;
    case "count":
      return `count ${observation.probe.from} ${observation.probe.to} 20`;
    case "reading": {
      const { quantity, from, to, joinedWith = [], measure, state } = observation.probe;
      if (measure !== undefined) return `measure ${measure.cause}/${measure.id}`;
      const run = state.kind === "live" ? ` in ${state.step ?? state.condition ?? state.command}` : "";
      const where = from === undefined ? "" : ` ${[from, ...joinedWith].join("+")} ${to}`;
      return `measure ${wordOf(quantity)}${where}${run}`;
    }
  }
}

function wordOf(quantity: Quantity): string {
  return quantity === "volts dc" ? "dc" : quantity.split(" ")[0];
}
