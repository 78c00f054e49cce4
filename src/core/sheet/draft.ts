import type { IssueList } from "../issue/index.ts";
import type { Cursor, KindInstance } from "../part/index.ts";
import type { Source } from "../quantity/index.ts";
import type { Point } from "./machine.ts";

/** A machine on paper: parts with pins on named wires, plugs that cut wires; no joints and no nodes yet. */
export interface Draft {
  readonly parts: Map<string, DraftPart>;
  readonly plugs: Map<string, DraftPlug>;
  /** Wires that are one. */
  readonly sameWire: (readonly [string, string])[];
  /** What a wire looks like where no plug says it: `case` → "bare metal". */
  readonly wireLooks: ReadonlyMap<string, string>;
  readonly jointRows: readonly JointRow[];
  /** Parts that this machine does not have though its family does. */
  readonly absent: Set<string>;
  readonly issues: IssueList;
}

export interface DraftPart {
  readonly id: string;
  readonly cursor: Cursor;
  readonly instance: KindInstance;
  readonly says: string;
  readonly of?: string;
  readonly access?: string;
  readonly share: number;
  readonly shareSource?: Source;
  /** Pin → wire. */
  readonly pins: Map<string, string>;
  /** Words for its pins: "outer tab". */
  readonly tabs: ReadonlyMap<string, string>;
  /** Mode → what is felt of it by hand, plug out and nothing opened. */
  readonly byHand: ReadonlyMap<string, string>;
  /** How its pins may be probed with power on. */
  readonly live: Point["live"];
  /** Whether its pins can be probed, where the sheet says so. */
  readonly points?: boolean;
}

export interface DraftPlug {
  readonly id: string;
  readonly cursor: Cursor;
  readonly of: string;
  readonly ways: number;
  readonly pinOneSays: string;
  readonly access?: string;
  readonly live: Point["live"];
  /** Class of the joint at each of its pins. */
  readonly joint: string;
  readonly says?: string;
  readonly insideSays?: string;
  readonly pins: Map<string, DraftPin>;
}

export interface DraftPin {
  readonly cursor: Cursor;
  readonly wire: string;
  /** Name of the wire on the inside of its owner. */
  readonly inside: string;
  readonly colour?: string;
  readonly says?: string;
}

/** One share over a group of joints, instead of their classes' own. */
export interface JointRow {
  readonly id: string;
  readonly cursor: Cursor;
  readonly share: number;
  readonly source?: Source;
  readonly at: readonly Cursor[];
}
