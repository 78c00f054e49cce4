/** Where a part lies; it is taken from the first of them that holds one. */
export const PLACES = ["van", "bench", "store"] as const;
export type ShelfPlace = (typeof PLACES)[number];

/** Grades of a bench test with which a used part may be fitted. */
export const FIT_GRADES = ["good", "not faulted"] as const;
export const GRADES = [...FIT_GRADES, "doubtful", "not for use", "not finished"] as const;

/** What a bench test of a used part came to, tied to it. */
export interface BenchTag {
  readonly grade: (typeof GRADES)[number];
  /** Day of the test, ISO 8601. */
  readonly tested: string;
  readonly by?: string;
  /** Job or machine that it came out of. */
  readonly from?: string;
  /** "158 Ω, 30 W with water" */
  readonly shows?: string;
}

/** Parts of one sort that lie in one place. */
export interface ShelfItem {
  /** Part kind, or an assembly by its id: what sheets call it. */
  readonly part: string;
  readonly says: string;
  readonly where: ShelfPlace;
  readonly state: "new" | "used";
  readonly count: number;
  /** So many should lie here; none where not told. */
  readonly least: number;
  readonly price?: number;
  readonly tag?: BenchTag;
}

/** The shop's stock. */
export interface Shelf {
  readonly says: string;
  readonly items: readonly ShelfItem[];
}

/** May it be fitted? A new part always; a used one with a bench test that it passed. */
export function mayBeFitted({ state, tag }: ShelfItem): boolean {
  return state === "new" || FIT_GRADES.some((grade) => grade === tag?.grade);
}
