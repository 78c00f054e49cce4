import type { Observation } from "../sign/index.ts";

/** Where the work stands: what is open, what is live, what is in hand, what was already asked, read or refused. */
export interface WorkState {
  /** Access groups that are open. */
  readonly open: ReadonlySet<string>;
  readonly position?: string;
  /** Until it was isolated in this job, a machine counts as live. */
  readonly energy: "plug out" | "live";
  /** Holds from a two-pole test until the next energising, and not a moment longer. */
  readonly provedDead: boolean;
  /** Points read live and clipped since the plug was last out. */
  readonly clipped?: ReadonlySet<string>;
  /** Meter in hand with what it is set to: `handheld-6000/ohms`. */
  readonly instrument?: string;
  readonly pulled: ReadonlySet<string>;
  readonly minutes: number;
  /** Money spent on parts. */
  readonly spent: number;
  /** Ids of steps the technician cannot take. */
  readonly cannot: ReadonlySet<string>;
  /** Signs answered since the last repair, as `told:heat`. */
  readonly signs: ReadonlySet<string>;
  /** Parts and causes looked at since the last repair. */
  readonly looks: ReadonlySet<string>;
  /** Ids of probes read since the last repair. */
  readonly probes: ReadonlySet<string>;
  readonly slots: ReadonlySet<string>;
  readonly repairs: readonly Repair[];
  /** Protector → why it opened. */
  readonly whys: ReadonlyMap<string, string>;
  /** Looks that found something bad: parts and causes. */
  readonly foundBad: ReadonlySet<string>;
}

/** A remedy that was carried out. */
export interface Repair {
  /** Event in which it was written down. */
  readonly event: string;
  readonly remedy: string;
  readonly on: string;
  readonly worked?: boolean;
  /** Readings or signs have been taken since: the repair was looked at. */
  readonly looked: boolean;
  /** Readings taken before it: the path to read again. */
  readonly path: readonly Observation[];
}

/** A job in which nothing has happened yet. */
export const ARRIVAL: WorkState = {
  open: new Set(),
  energy: "live",
  provedDead: false,
  pulled: new Set(),
  minutes: 0,
  spent: 0,
  cannot: new Set(),
  signs: new Set(),
  looks: new Set(),
  probes: new Set(),
  slots: new Set(),
  repairs: [],
  whys: new Map(),
  foundBad: new Set(),
};
