/** ln Σ exp(x), -Infinity for nothing. Exact also where every term underflows on its own. */
export function logSumExp(logs: ArrayLike<number>): number {
  let top = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < logs.length; i++) if ((logs[i] as number) > top) top = logs[i] as number;
  if (top === Number.NEGATIVE_INFINITY || top === Number.POSITIVE_INFINITY) return top;
  let sum = 0;
  let lost = 0;
  for (let i = 0; i < logs.length; i++) {
    // Neumaier's sum: thousands of small terms beside one large one keep their last digits
    const term = Math.exp((logs[i] as number) - top);
    const next = sum + term;
    lost += sum >= term ? sum - next + term : term - next + sum;
    sum = next;
  }
  return top + Math.log(sum + lost);
}

/** ln(exp(a) + exp(b)). */
export function logAdd(a: number, b: number): number {
  const top = Math.max(a, b);
  if (!Number.isFinite(top)) return top;
  return top + Math.log1p(Math.exp(Math.min(a, b) - top));
}

/** ln(1 − exp(x)) for x ≤ 0. */
export function logOneMinusExp(x: number): number {
  return x > -Math.LN2 ? Math.log(-Math.expm1(x)) : Math.log1p(-Math.exp(x));
}

/** Takes the common factor out in place, so that the weights sum to 1; gives back its logarithm. All -Infinity stays so. */
export function normaliseLogs(logs: Float64Array): number {
  const total = logSumExp(logs);
  if (Number.isFinite(total)) for (let i = 0; i < logs.length; i++) logs[i] = (logs[i] as number) - total;
  return total;
}
