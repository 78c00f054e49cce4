import type { Quantity } from "../meter/index.ts";

/** The state a probe is made in. */
export type ProbeState =
  /** Plug out, states at rest. `hands` sets inputs (door shut, key held); `pulled` lists plugs, `freed` parts taken out of circuit. */
  | {
      readonly kind: "dead";
      readonly pulled: readonly string[];
      readonly freed: readonly string[];
      readonly hands: ReadonlyMap<string, number>;
    }
  /** Energised, in a step of the programme, or a condition, or with an output commanded in service test. */
  | { readonly kind: "live"; readonly step?: string; readonly condition?: string; readonly command?: string }
  /** The loose part on the bench. */
  | { readonly kind: "bench" };

/** One measured quantity in one state. */
export interface Probe {
  readonly id: string;
  readonly quantity: Quantity;
  /** Ids of points (ohms, volts, insulation): names, since machines of one family number their nodes differently. */
  readonly from?: string;
  readonly to?: string;
  /** Points joined to `from` (L+N together in an insulation test). */
  readonly joinedWith?: readonly string[];
  /** Measurement of a cause: cause id and measure id. */
  readonly measure?: { readonly cause: string; readonly id: string };
  readonly state: ProbeState;
}

/** What a display would show under one hypothesis: a mixture; shares of "open" (OL) and values with their own spread. */
export interface Prediction {
  readonly terms: readonly PredictedTerm[];
}

export type PredictedTerm =
  | { readonly weight: number; readonly kind: "value"; readonly mean: number; readonly sigma: number }
  | { readonly weight: number; readonly kind: "open" };
