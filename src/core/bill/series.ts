/** A number series: what stands before its digits, and how many there are at least. */
export interface Series {
  readonly prefix: string;
  readonly digits: number;
  /** The first of it, where numbers before it were given out elsewhere; 1 where not told. */
  readonly first?: number;
}

/** The place of a number within a series; none where it is of another. */
function placeIn({ prefix }: Series, number: string): number | undefined {
  const digits = number.startsWith(prefix) ? number.slice(prefix.length) : "";
  return /^\d{1,9}$/.test(digits) ? Number(digits) : undefined;
}

/** The next number of a series: one more than the largest that was given out, its first where there is none. */
export function nextNumber(series: Series, given: Iterable<string>): string {
  const places = [...given].flatMap((number) => placeIn(series, number) ?? []);
  const next = places.length === 0 ? (series.first ?? 1) : Math.max(...places) + 1;
  return `${series.prefix}${String(next).padStart(series.digits, "0")}`;
}

/** What is not as it should be in a gapless series: numbers left out, numbers given twice. */
export function faultsOfSeries(
  series: Series,
  given: Iterable<string>,
): { readonly missing: readonly string[]; readonly twice: readonly string[] } {
  const counts = new Map<number, number>();
  for (const number of given) {
    const place = placeIn(series, number);
    if (place !== undefined) counts.set(place, (counts.get(place) ?? 0) + 1);
  }
  const name = (place: number): string => `${series.prefix}${String(place).padStart(series.digits, "0")}`;
  const places = [...counts.keys()].sort((a, b) => a - b);
  const missing = places.flatMap((place, n) => {
    const before = n === 0 ? place : (places[n - 1] as number) + 1;
    // A series need not begin at one: what came before may be in the books of another program.
    return Array.from({ length: place - before }, (_, k) => name(before + k));
  });
  return { missing, twice: places.filter((place) => (counts.get(place) ?? 0) > 1).map(name) };
}
