/** Tests after a repair in the order they are made; none that energises comes before look, earth and insulation. */
export const SAFETY_TESTS = ["look", "earth", "insulation", "protective current", "touch current", "function"] as const;
export type SafetyTest = (typeof SAFETY_TESTS)[number];
/** The tests that a meter judges. */
export const METERED = ["earth", "insulation", "protective current", "touch current"] as const;
export type MeteredTest = (typeof METERED)[number];
export const PROTECTION_CLASSES = ["I", "II", "III"] as const;
export type ProtectionClass = (typeof PROTECTION_CLASSES)[number];
/** How far the text of the rules was read by whoever wrote the file. */
export const READ_STATUSES = ["read", "second-hand", "from memory"] as const;

/** One limit, and for which appliances it holds. Ohms, amperes, metres, square millimetres. */
export interface SafetyRow {
  readonly test: MeteredTest;
  readonly classes: readonly ProtectionClass[];
  readonly isHeating?: boolean;
  readonly isPortable?: boolean;
  readonly hasBareMetal?: boolean;
  readonly sectionUpTo?: number;
  readonly sectionAbove?: number;
  readonly clause?: string;
  readonly limit: number;
  /** `add` for each `each` metres that are begun beyond `free`. */
  readonly longer?: { readonly free: number; readonly each: number; readonly add: number };
  /** The conductor of the cord is added. */
  readonly withCord: boolean;
  /** Where more than `limit`: so much for each kilowatt of heating. */
  readonly byKilowatt?: number;
  readonly least?: number;
  readonly most?: number;
  readonly instead?: MeteredTest;
  readonly note?: string;
  readonly source: string;
}

/** A cord's conductor. */
export interface Conductor {
  readonly ohmsPerMetre: number;
  readonly source: string;
}

/** One country's rules in one edition. */
export interface SafetyRules {
  readonly id: string;
  readonly says: string;
  readonly country: string;
  readonly edition: string;
  readonly status: (typeof READ_STATUSES)[number];
  /** Cord conductors by section. */
  readonly conductor: ReadonlyMap<number, Conductor>;
  readonly testVolts: { readonly usual: number; readonly surge: number };
  readonly rows: readonly SafetyRow[];
}

/** What is tested. */
export interface Tested {
  readonly protection: ProtectionClass;
  readonly cordMetres?: number;
  readonly cordSection?: number;
  /** Watts of heating; 0 or none: no heating elements. */
  readonly heatingWatts?: number;
  readonly isPortable?: boolean;
  /** Metal that can be touched and is not joined to earth. */
  readonly hasBareMetal?: boolean;
}
