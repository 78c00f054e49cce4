import { type Quantity, unitOfQuantity } from "../../core/meter/index.ts";
import type { Band as PlanBand, PlanQuestion } from "../../core/plan/index.ts";
import type { Prediction } from "../../core/predict/index.ts";
import { formatAmount } from "../../core/quantity/index.ts";
import { oddsInWords } from "./odds.ts";
import { type Band, drawScale, type Reach } from "./scale.ts";
import { wrap } from "./wrap.ts";

/** Room for an answer in words before what it stands for. */
const wordWidth = 16;
/** Below this a hand-held meter, leads nulled, shows "nothing to speak of". */
const leastOhms = 0.2;
/** No hand-held instrument shows less than this of any unit but the farad. */
const leastShown = 1e-6;
/** Terms of a prediction lighter than this do not widen its band. */
const leastTerm = 0.1;
/** Belief that a band's named faults may leave over without a word. */
const leastOthers = 0.02;

/** Where a display would stand: two standard deviations about every term worth naming; OL where there is no value. */
export function reachOf(prediction: Prediction): Reach {
  const values = prediction.terms.flatMap((term) => (term.kind === "value" && term.weight >= leastTerm ? [term] : []));
  if (values.length === 0) return "open";
  return {
    lo: Math.max(0, Math.min(...values.map(({ mean, sigma }) => mean - 2 * sigma))),
    hi: Math.max(...values.map(({ mean, sigma }) => mean + 2 * sigma)),
  };
}

/** "24.1 – 26.4 Ω"; one value where both ends print alike; "under 0.3 Ω" where the band starts at nothing. */
export function reachInWords(reach: Reach, quantity: Quantity, digits = 3): string {
  if (reach === "open") return "OL";
  if (quantity === "ohms" && reach.hi < leastOhms) return "0.2 Ω at most";
  const shown = (value: number): string =>
    formatAmount(quantity !== "farads" && value < leastShown ? 0 : value, unitOfQuantity(quantity), digits);
  const lo = shown(Math.max(reach.lo, 0));
  const hi = shown(reach.hi);
  if (lo === hi) return hi;
  if (reach.lo <= 0) return `under ${hi}`;
  const [loNumber = lo, loUnit] = lo.split(" ");
  return loUnit === hi.split(" ")[1] ? `${loNumber} – ${hi}` : `${lo} – ${hi}`;
}

/**
 * Bands of one quantity on their scale: ohms on a logarithmic one, other quantities straight from zero.
 *
 * @param bands  without their values, which are worded here
 */
export function drawReadings(quantity: Quantity, bands: readonly Omit<Band, "value">[]): string[] {
  const highest = Math.max(0, ...bands.map(({ reach }) => (reach === "open" ? 0 : reach.hi)));
  return drawScale({
    axis: axisOf(quantity),
    top: roundTop(highest),
    stop: (value) => (value === 0 ? "0" : formatAmount(value, unitOfQuantity(quantity), 2)),
    bands: bands.map((band) => ({ ...band, value: reachInWords(band.reach, quantity) })),
  });
}

/** The sign of a quantity's unit, as it stands behind a number: "Ω". */
export function unitSign(quantity: Quantity): string {
  return formatAmount(0, unitOfQuantity(quantity)).replace("0", "").trim();
}

/** Ohms run by decades, all else straight from zero. */
export function axisOf(quantity: Quantity): "ohms" | "straight" {
  return quantity === "ohms" || quantity === "insulation ohms" ? "ohms" : "straight";
}

/** One reading or question of a step: where the meter would stand, or what the answer would be, under each fault. */
export function drawQuestion(question: PlanQuestion, width: number): string[] {
  const quantity = question.probe?.quantity;
  const numbers = question.bands.flatMap(({ reach, ...band }) =>
    reach === "open" || "lo" in reach ? [{ reach, odds: oddsInWords(band.p), says: namesOf(band) }] : [],
  );
  if (quantity === undefined || numbers.length < question.bands.length) {
    return question.bands.flatMap((band) => {
      const word = typeof band.reach === "object" && "word" in band.reach ? band.reach.word : "";
      const first = `${word.padEnd(wordWidth)} `;
      return wrap(`${oddsInWords(band.p)}: ${namesOf(band)}`, width, first, " ".repeat(wordWidth + 1));
    });
  }
  const scale = drawReadings(quantity, numbers);
  if (question.others >= leastOthers) scale.push(`others: ${oddsInWords(question.others)}`);
  return scale;
}

/** Faults of one band, likeliest first, each in full. */
function namesOf(band: Pick<PlanBand, "faults" | "p">): string {
  const names = [...new Set(band.faults.map(({ says }) => says))].join("; ");
  const told = band.faults.reduce((sum, { p }) => sum + p, 0);
  return names === "" ? "others" : band.p - told >= leastOthers ? `${names}; and others` : names;
}

/** The next 1, 2 or 5 times a power of ten above a value: a top that reads well. */
export function roundTop(value: number): number {
  if (value <= 0) return 1;
  const power = 10 ** Math.floor(Math.log10(value));
  const lead = value / power;
  return power * (lead <= 1 ? 1 : lead <= 2 ? 2 : lead <= 5 ? 5 : 10);
}
