/** What one severity of one fault does to a machine; indices are the machine's. */
export type Effect =
  | { readonly does: "open" | "short"; readonly element: number }
  | { readonly does: "series"; readonly element: number; readonly ohms: number }
  | { readonly does: "parallel"; readonly element: number; readonly ohms: number }
  | { readonly does: "factor"; readonly element: number; readonly by: number }
  /** `element` is a leak element that is absent in a good machine. */
  | { readonly does: "leak"; readonly element: number; readonly ohms: number }
  | { readonly does: "stuck"; readonly set: number; readonly state: number }
  | { readonly does: "set"; readonly variable: number; readonly to: number };

export interface Severity {
  /** Share within the mode; the severities of a mode sum to 1. */
  readonly weight: number;
  readonly effects: readonly Effect[];
}

/** One way one machine can be at fault: a part's mode, a group of joints in series, or a cause that is not electrical. */
export interface Mode {
  /** `heater/all open`, `joints X3.1+heater.s1/open`, `lint` */
  readonly id: string;
  /** Part index, or -1 for a cause. */
  readonly part: number;
  /** Cause index, or -1 for a part. */
  readonly cause: number;
  /** All parts this mode may sit in (joints that nothing reachable parts); else just `part`. */
  readonly parts: readonly number[];
  /** "heater open", "bad connection between X3 pin 1 and the heater". */
  readonly says: string;
  readonly partSays: string;
  /** Failures per 100 attended calls. */
  readonly share: number;
  readonly severities: readonly Severity[];
  /** Share of such faults that come and go, 0..1. */
  readonly nowAndThen: number;
  readonly victim: boolean;
  readonly looks?: string;
  readonly seen?: { readonly hit: number; readonly falseAlarm: number };
}
