import type { TreeMap } from "../part/index.ts";
import type { Source } from "../quantity/index.ts";
import type { SlotTest } from "./slot-test.ts";

/**
 * A wiring sheet as it was read: its slots and pieces known, everything else still the texts of the file with their
 * lines. `assemble` makes a machine of it once the slots are chosen.
 */
export interface Sheet {
  readonly file?: string;
  readonly title: string;
  readonly source?: Source;
  /** Pseudo-counts behind every share. */
  readonly weightJobs: number;
  readonly supply: { readonly house: string; readonly class: "I" | "II"; readonly line: number };
  readonly base: Layer;
  /** Shared pieces that every machine of the family has, by name. */
  readonly uses: readonly string[];
  /** Its own pieces. */
  readonly pieces: ReadonlyMap<string, Piece>;
  readonly slots: ReadonlyMap<string, Slot>;
  /** Of a branch sheet: its parts in order from line to neutral, each with the two pins that lie in the branch. */
  readonly path?: readonly { readonly part: string; readonly ends: readonly [string, string] }[];
}

/** Some of a sheet's sections, to be laid over others. */
export interface Layer {
  readonly file?: string;
  readonly tree: TreeMap;
  readonly source?: Source;
  /** Path of keys that leads to it in its file. */
  readonly at: readonly (string | number)[];
}

/** A part of the circuit that several variants use, or that belongs to two answers together. */
export interface Piece {
  readonly layer: Layer;
  /** It is there exactly when this holds; without it, when a chosen variant uses it. */
  readonly if?: SlotTest;
}

/** A place in a family filled by one of several small circuits. */
export interface Slot {
  readonly id: string;
  readonly ask: string;
  /** Minutes to find out by looking. */
  readonly minutes: number;
  readonly onlyIf?: SlotTest;
  /** Wires at which it meets its neighbours. */
  readonly edge: readonly string[];
  readonly variants: ReadonlyMap<string, Variant>;
  readonly line: number;
}

export interface Variant {
  readonly id: string;
  /** How it is told by a look: "three wires". */
  readonly look?: string;
  /** Per cent of the family. */
  readonly share: number;
  readonly onlyIf?: SlotTest;
  /** Pieces it is made of: the sheet's own, or shared ones. */
  readonly uses: readonly string[];
  readonly layer: Layer;
  readonly line: number;
}
