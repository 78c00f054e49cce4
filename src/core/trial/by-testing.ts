import { priceOf } from "../remedy/index.ts";
import { Rival } from "./rival.ts";
import type { Technician } from "./technician.ts";
import { isBad, minutesTo, usualTest } from "./usual-test.ts";

/**
 * A careful technician without a plan: parts and causes in a fixed order by odds over price of the test, each with its usual
 * test before anything is done to it; a test that cannot save its price is left out. What is left then, tests failing or
 * none to be had, is mended on the chance, the likeliest first, as long as that is worth it.
 */
export const byTesting: Technician = (desk, hands) => {
  const rival = new Rival(desk, hands);
  const order = rival.places
    .map((place) => {
      const test = usualTest(desk, place);
      return { place, test, rank: rival.oddsOf(place) / (test.minutes + minutesTo(desk, hands, place)) };
    })
    .filter(({ test }) => test.minutes > 0)
    .sort((a, b) => b.rank - a.rank || (a.place.id < b.place.id ? -1 : 1));
  for (const { place, test } of order) {
    const price = priceOf(test.minutes + minutesTo(desk, hands, place), desk.shop);
    if (rival.oddsOf(place) * rival.savedAt(place) <= price) continue;
    const bad = isBad(desk, hands, place, test);
    rival.tested(place, bad);
    // A place that failed its test is mended until it works or nothing more is worth doing there.
    while (bad && rival.isWorthMending(place)) if (rival.mend(place)) return rival.mended();
  }
  return rival.mendOnTheChance();
};
