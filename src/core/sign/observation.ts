import type { Meter, Shown } from "../meter/index.ts";
import type { Probe } from "../predict/index.ts";

/** Who vouches for what was noticed. What was seen overrules what was told. */
export type Witness = "told" | "heard" | "seen";

/** One thing learned about the machine. Everything that moves the odds is one of these. */
export type Observation =
  | { readonly kind: "sign"; readonly sign: string; readonly answer: string; readonly witness: Witness }
  | {
      readonly kind: "reading";
      readonly probe: Probe;
      readonly meter: Meter;
      /** Leads nulled, or their ohms where known. */
      readonly leads: "nulled" | "not nulled" | { readonly ohms: number };
      readonly shown: Shown;
      /** Degrees of the part read, when known; else the room's. */
      readonly degrees?: number;
    }
  /** A look at a part (by part id) or at a cause (by cause id): bad as the sheet describes it, or not. */
  | { readonly kind: "look"; readonly at: string; readonly mode?: string; readonly found: "bad" | "good" }
  /** A slot of the family sheet answered by a look. */
  | { readonly kind: "answer"; readonly slot: string; readonly variant: string }
  /** n operations of a part of which k were good. */
  | { readonly kind: "count"; readonly probe: Probe; readonly good: number; readonly of: number };
