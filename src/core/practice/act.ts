import type { Quantity } from "../meter/index.ts";

/** The run in which a live reading is taken: a step of the programme, a condition, or one output commanded in service test. */
export interface RunName {
  readonly kind: "step" | "condition" | "command";
  readonly id: string;
}

/** Two points; `joinedWith` are joined to the first. */
export interface Pair {
  readonly from: string;
  readonly to: string;
  readonly joinedWith: readonly string[];
}

/** One thing that hands, eyes, ears or mouth do. Names are ids of the machine. */
export type Act =
  | { readonly do: "ask" | "watch"; readonly signs: readonly string[] }
  | { readonly do: "look"; readonly at: readonly string[] }
  | { readonly do: "open" | "close"; readonly access: string }
  | { readonly do: "plug out" | "plug in" | "prove dead" | "discharge" }
  | { readonly do: "pull" | "push"; readonly plug: string }
  | { readonly do: "free" | "refit"; readonly part: string }
  | { readonly do: "hold"; readonly input: string; readonly to: number }
  /** No pairs: at the plug as a whole. */
  | { readonly do: "measure"; readonly quantity: Quantity; readonly pairs: readonly Pair[]; readonly run?: RunName }
  /** A measurement that belongs to a cause: seconds to empty, litres a minute. */
  | { readonly do: "gauge"; readonly cause: string; readonly measure: string }
  | { readonly do: "count"; readonly pair: Pair; readonly of: number }
  | { readonly do: "mend"; readonly course: string }
  | { readonly do: "why"; readonly protector: string; readonly reason: string }
  | { readonly do: "bridge" }
  | { readonly do: "verify" }
  /** Closed as mended. */
  | { readonly do: "finish" }
  /** Stopped without a repair, with what is said to the customer. */
  | { readonly do: "stop"; readonly says: string };

/** What a learner may want to see; none of it touches the machine. */
export const VIEWS = ["next", "faults", "history", "help", "where", "remedies", "state"] as const;
export type View = (typeof VIEWS)[number];
