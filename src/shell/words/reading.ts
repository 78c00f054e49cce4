import { type Quantity, unitOfQuantity } from "../../core/meter/index.ts";
import type { Band as PlanBand, PlanQuestion } from "../../core/plan/index.ts";
import { formatAmount } from "../../core/quantity/index.ts";
import { oddsInWords } from "./odds.ts";
import { drawScale } from "./scale.ts";
import { wrap } from "./wrap.ts";

/** Room for an answer in words before what it stands for. */
const wordWidth = 16;
/** Room for names beside a drawn scale. */
const nameWidth = 22;
/** Below this a hand-held meter, leads nulled, shows "nothing to speak of". */
const leastOhms = 0.2;

/** "24.1 – 26.4 Ω"; one value where both ends print alike; "under 0.3 Ω" where the band starts at nothing. */
export function reachInWords(reach: PlanBand["reach"], quantity: Quantity): string {
  if (reach === "open") return "OL";
  if ("word" in reach) return reach.word;
  if (quantity === "ohms" && reach.hi < leastOhms) return "0.2 Ω at most";
  const lo = formatAmount(Math.max(reach.lo, 0), unitOfQuantity(quantity));
  const hi = formatAmount(reach.hi, unitOfQuantity(quantity));
  if (lo === hi) return hi;
  if (reach.lo <= 0) return `under ${hi}`;
  const [loNumber = lo, loUnit] = lo.split(" ");
  return loUnit === hi.split(" ")[1] ? `${loNumber} – ${hi}` : `${lo} – ${hi}`;
}

/** Faults of one band on one short line: the likeliest named, the others counted. */
export function bandName(band: PlanBand): string {
  const [first, ...rest] = band.faults;
  if (first === undefined) return "others";
  if (rest.length === 0) return first.says;
  const more = ` +${rest.length} more`;
  const room = nameWidth - more.length;
  return `${first.says.length <= room ? first.says : `${first.says.slice(0, room - 1)}…`}${more}`;
}

/**
 * One reading of a step: where the meter would stand under each fault that is still possible.
 * Ohms are drawn on a logarithmic scale, other quantities straight from zero; answers in words as a list.
 */
export function drawQuestion(question: PlanQuestion, width: number): string[] {
  const quantity = question.probe?.quantity;
  if (quantity === undefined || question.bands.some((band) => typeof band.reach === "object" && "word" in band.reach)) {
    return question.bands.flatMap((band) => {
      const word = typeof band.reach === "object" && "word" in band.reach ? band.reach.word : "";
      const names = [...new Set(band.faults.map((fault) => fault.says))].join("; ");
      return wrap(`${oddsInWords(band.p)}: ${names}`, width, `${word.padEnd(wordWidth)} `, " ".repeat(wordWidth + 1));
    });
  }
  const highest = Math.max(
    0,
    ...question.bands.map((band) => (typeof band.reach === "object" && "hi" in band.reach ? band.reach.hi : 0)),
  );
  const scale = drawScale({
    axis: isOhmic(quantity) ? "ohms" : "straight",
    top: roundTop(highest),
    stop: (value) => (value === 0 ? "0" : formatAmount(value, unitOfQuantity(quantity), 2)),
    bands: question.bands.flatMap((band) =>
      typeof band.reach === "object" && "word" in band.reach
        ? []
        : [{ says: bandName(band), reach: band.reach, value: reachInWords(band.reach, quantity) }],
    ),
  });
  if (question.others >= 0.02) scale.push(`others: ${oddsInWords(question.others)}`);
  return scale;
}

function isOhmic(quantity: Quantity): boolean {
  return quantity === "ohms" || quantity === "insulation ohms";
}

/** The next 1, 2 or 5 times a power of ten above a value: a top that reads well. */
function roundTop(value: number): number {
  if (value <= 0) return 1;
  const power = 10 ** Math.floor(Math.log10(value));
  const lead = value / power;
  return power * (lead <= 1 ? 1 : lead <= 2 ? 2 : lead <= 5 ? 5 : 10);
}
