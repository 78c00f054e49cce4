import { type Quantity, unitOfQuantity } from "../../core/meter/index.ts";
import { formatAmount, type Limits } from "../../core/quantity/index.ts";

export interface LimitWords {
  readonly atMost: (value: string) => string;
  readonly atLeast: (value: string) => string;
  readonly between: (lo: string, hi: string) => string;
}

const english: LimitWords = {
  atMost: (value) => `at most ${value}`,
  atLeast: (value) => `at least ${value}`,
  between: (lo, hi) => `${lo} to ${hi}`,
};

/** "360 Ω to 440 Ω", "at most 100 mΩ", "OL". */
export function limitsInWords(quantity: Quantity, { lo, hi }: Limits, words = english): string {
  const told = (value: number): string => formatAmount(value, unitOfQuantity(quantity));
  if (lo === Number.POSITIVE_INFINITY) return "OL";
  if (lo === Number.NEGATIVE_INFINITY) return words.atMost(told(hi));
  if (hi === Number.POSITIVE_INFINITY) return words.atLeast(told(lo));
  return words.between(told(lo), told(hi));
}
