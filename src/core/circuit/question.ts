/** A fault put into a deck for one question. */
export type DeckFault =
  | { readonly does: "series" | "parallel"; readonly element: string; readonly ohms: number }
  | { readonly does: "scale"; readonly element: string; readonly by: number }
  | { readonly does: "leak"; readonly node: string; readonly to: string; readonly ohms: number }
  | { readonly does: "open" | "short"; readonly element: string };

/** What is asked: volts or ohms between two nodes, amperes through or watts in one element. */
export type Asked =
  | { readonly kind: "volts" | "ohms"; readonly a: string; readonly b: string }
  | { readonly kind: "amps" | "watts"; readonly element: string };

export interface Question {
  readonly id: string;
  /** Element (key) → value instead of the deck's. */
  readonly set: ReadonlyMap<string, number>;
  /** Elements (keys) taken out. */
  readonly remove: ReadonlySet<string>;
  readonly faults: readonly DeckFault[];
  readonly asked: Asked;
  readonly dc: boolean;
  readonly partials: boolean;
}

/** All questions of one file, and the frequency of the AC ones (undefined where none needs it). */
export interface Questions {
  readonly hertz: number | undefined;
  readonly questions: readonly Question[];
}

export type Unit = "V" | "Ohm" | "A" | "W";

/**
 * One answer, in the form of the door. `value` is a magnitude; `re` and `im` are the difference itself (for DC `re`
 * carries the sign, for watts of a source it is negative where the source gives).
 */
export type Answer =
  | {
      readonly id: string;
      readonly value: number;
      readonly unit: Unit;
      readonly re?: number;
      readonly im?: number;
      readonly partials?: Readonly<Record<string, number | { readonly re: number; readonly im: number }>>;
    }
  /** No path exists. */
  | { readonly id: string; readonly open: true; readonly because: string }
  /** The circuit contradicts itself or does not determine the answer. */
  | { readonly id: string; readonly undefined: true; readonly because: string };
