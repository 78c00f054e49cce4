/** One way of placing the steps so far: how many are placed, how many of them each in a stretch of its own, and where. */
interface Way {
  readonly placed: number;
  readonly apart: number;
  readonly places: readonly (number | undefined)[];
}

/**
 * Places the steps of a programme in the stretches of a log, in their order: as many steps as can be, then as many of them as can be
 * each in a stretch of its own, then as early as can be. Several steps may share a stretch.
 *
 * @param fitting  of each step the numbers of the stretches it may be, ascending
 * @returns        of each step its stretch; undefined where it fits none, or none in the order
 */
export function placeInOrder(fitting: readonly (readonly number[])[]): readonly (number | undefined)[] {
  // By the last stretch that is taken: the best way to it. -1: none is.
  let ways = new Map<number, Way>([[-1, { placed: 0, apart: 0, places: [] }]]);
  for (const numbers of fitting) {
    const next = new Map<number, Way>();
    for (const [last, way] of ways) offer(next, last, { ...way, places: [...way.places, undefined] });
    const before = [...ways].sort(([a], [b]) => a - b);
    let best: Way | undefined;
    let at = 0;
    for (const number of numbers) {
      for (; at < before.length && before[at][0] < number; at++) {
        if (best === undefined || isBetter(before[at][1], best)) best = before[at][1];
      }
      if (best !== undefined) {
        const { placed, apart, places } = best;
        offer(next, number, { placed: placed + 1, apart: apart + 1, places: [...places, number] });
      }
      const same = ways.get(number);
      if (same !== undefined) {
        const { placed, apart, places } = same;
        offer(next, number, { placed: placed + 1, apart, places: [...places, number] });
      }
    }
    ways = next;
  }
  const [first, ...others] = [...ways].sort(([a], [b]) => a - b).map(([, way]) => way);
  return others.reduce((best, way) => (isBetter(way, best) ? way : best), first).places;
}

function offer(ways: Map<number, Way>, last: number, way: Way): void {
  const known = ways.get(last);
  if (known === undefined || isBetter(way, known)) ways.set(last, way);
}

function isBetter(one: Way, other: Way): boolean {
  return one.placed > other.placed || (one.placed === other.placed && one.apart > other.apart);
}
