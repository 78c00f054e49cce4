import { displayed, pickRange, unitOfQuantity } from "../meter/index.ts";
import { formatAmount } from "../quantity/index.ts";
import type { Observation } from "../sign/index.ts";
import type { Outcome } from "./case.ts";
import type { ReadingSeen } from "./judge-reading.ts";
import type { Band, Partition } from "./partition.ts";

export function signOutcomes(
  answers: readonly string[],
  seen: Extract<Observation, { kind: "sign" }>,
): readonly Outcome[] {
  return answers.map((answer) => ({ id: answer, says: answer, observation: { ...seen, answer } }));
}

export function lookOutcomes(seen: Extract<Observation, { kind: "look" }>): readonly Outcome[] {
  return (["bad", "good"] as const).map((found) => ({ id: found, says: found, observation: { ...seen, found } }));
}

export function answerOutcomes(
  variants: readonly string[],
  seen: Extract<Observation, { kind: "answer" }>,
): readonly Outcome[] {
  return variants.map((variant) => ({ id: variant, says: variant, observation: { ...seen, variant } }));
}

/** None good, some good, all good: with the middle as one outcome. */
export function countOutcomes(seen: Extract<Observation, { kind: "count" }>): readonly Outcome[] {
  const middle = Math.max(1, Math.round(seen.of / 2));
  return [
    { id: "none good", says: "none good", observation: { ...seen, good: 0 } },
    { id: "some good", says: "some good, some not", observation: { ...seen, good: Math.min(middle, seen.of - 1) } },
    { id: "all good", says: "all good", observation: { ...seen, good: seen.of } },
  ];
}

export function readingOutcomes(partition: Partition, seen: ReadingSeen): readonly Outcome[] {
  const { bands, overLimit } = partition;
  const quantity = seen.probe.quantity;
  const outcomes = bands.map((band, i): Outcome => {
    const range = pickRange(seen.meter, quantity, band.typical);
    const value = range === undefined ? band.typical : displayed(range, band.typical);
    return {
      id: `band ${i + 1}`,
      says: bandSays(band, seen),
      from: band.from,
      to: band.to,
      observation: { ...seen, shown: { kind: "value", value } },
    };
  });
  if (!overLimit) return outcomes;
  return [
    ...outcomes,
    { id: "over limit", says: "OL", overLimit: true, observation: { ...seen, shown: { kind: "over limit" } } },
  ];
}

/** "24 to 28 Ω", "under 2 V". */
function bandSays({ from, to, typical }: Band, { probe, meter }: ReadingSeen): string {
  const unit = unitOfQuantity(probe.quantity);
  const digit = pickRange(meter, probe.quantity, Math.abs(to))?.resolution ?? 0;
  if (from <= Math.max(digit, 0)) return `under ${formatAmount(Math.max(to, digit), unit, 2)}`;
  if (to - from <= 2 * digit || formatAmount(from, unit, 2) === formatAmount(to, unit, 2)) {
    return `about ${formatAmount(typical, unit, 2)}`;
  }
  return `${formatAmount(from, unit, 2)} to ${formatAmount(to, unit, 2)}`;
}
