/** ln Σ exp(x), -Infinity for nothing. Exact also where every term underflows on its own. */
export function logSumExp(logs: ArrayLike<number>): number {
  const top = largest(logs);
  return Number.isFinite(top) ? top + logSumBelow(logs, top) : top;
}

function largest(logs: ArrayLike<number>): number {
  let top = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < logs.length; i++) if (logs[i] > top) top = logs[i];
  return top;
}

/** ln Σ exp(x − top); Neumaier's sum, so that thousands of small terms beside one large one keep their last digits. */
function logSumBelow(logs: ArrayLike<number>, top: number): number {
  let sum = 0;
  let lost = 0;
  for (let i = 0; i < logs.length; i++) {
    const term = Math.exp(logs[i] - top);
    const next = sum + term;
    lost += sum >= term ? sum - next + term : term - next + sum;
    sum = next;
  }
  return Math.log(sum + lost);
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
  const top = largest(logs);
  if (!Number.isFinite(top)) return top;
  const rest = logSumBelow(logs, top);
  // the largest is taken off first: a sum of a thousand rounds away thirteen digits behind the point
  for (let i = 0; i < logs.length; i++) logs[i] = logs[i] - top - rest;
  return top + rest;
}
