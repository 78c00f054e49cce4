/** An amount of money that is not known to the penny: nine in ten lie from `lo` to `hi`. */
export interface Spread {
  readonly lo: number;
  readonly mean: number;
  readonly hi: number;
}

export interface Weighed {
  readonly amount: number;
  readonly weight: number;
}

/** Mean and middle nine tenths of weighed amounts. */
export function spreadOf(weighed: readonly Weighed[]): Spread {
  const sorted = weighed.filter(({ weight }) => weight > 0).sort((a, b) => a.amount - b.amount);
  const whole = sorted.reduce((sum, { weight }) => sum + weight, 0);
  if (whole === 0) throw new RangeError("spreadOf: nothing weighed");
  const mean = sorted.reduce((sum, { amount, weight }) => sum + amount * weight, 0) / whole;
  const below = (share: number): number => {
    let sum = 0;
    for (const { amount, weight } of sorted) {
      sum += weight;
      // A rounding error must not push a share of exactly a half past its amount.
      if (sum >= share * whole * (1 - 1e-12)) return amount;
    }
    return sorted.at(-1)?.amount ?? 0;
  };
  return { lo: below(0.05), mean, hi: below(0.95) };
}

/** Three amounts that stand for a range: its ends weigh a sixth each (the usual three-point rule, from memory). */
export function threePoints(lo: number, nominal: number, hi: number): readonly Weighed[] {
  return [
    { amount: lo, weight: 1 / 6 },
    { amount: nominal, weight: 4 / 6 },
    { amount: hi, weight: 1 / 6 },
  ];
}
