import type { Haste } from "../part/index.ts";

/** One lasting state of a machine within a picture; solving again with these values gives its volts and amperes. */
export interface Member {
  readonly weight: number;
  readonly states: Uint8Array;
  readonly variables: Float64Array;
}

/** What a machine is like at one moment of one step; several members when it hunts. */
export interface Picture {
  readonly step: string;
  readonly moment: Haste | "end";
  readonly members: readonly Member[];
  /** The slowest haste of the round it hunts; "now" is a chatter, an error of the sheet. */
  readonly hunts?: Haste;
}

/** One machine with one fault (or none) run through its programme and its conditions. */
export interface Run {
  /**
   * `${step}@${moment}` and `${condition}@${moment}` → picture; a condition's own id alone → its end. Every step is
   * there, reached or not: one that was not shows the machine as it stands by then.
   */
  readonly pictures: ReadonlyMap<string, Picture>;
  /** What the machine said, with the step in which it said it, in order. */
  readonly said: readonly { readonly step: string; readonly says: string }[];
  /** Permanent protectors that the programme would have opened: part indices. */
  readonly wouldOpen: readonly number[];
  /** Steps that were reached at all. */
  readonly reached: readonly string[];
  /** Where the programme went round and round, with the slowest haste of the round. */
  readonly hunts: readonly { readonly step: string; readonly moment: Haste; readonly haste: Haste }[];
}
