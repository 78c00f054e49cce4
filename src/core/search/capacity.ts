import type { Problem } from "./problem.ts";

/** Rounds of the iteration: any law bounds, so too few cost tightness only. */
const ROUNDS = 30;

/**
 * For each test, how far its outcomes under each cause are from the law that makes the most telling cause tell least.
 *
 * @param causes live causes
 * @param useful flags by test; the others are left at 0
 * @returns divergence in nats: `[test * problem.causes + cause]`
 * @source R. Blahut, "Computation of channel capacity and rate-distortion functions" (1972), S. Arimoto (1972), from memory
 */
export function capacityDivergences(problem: Problem, causes: Int32Array, useful: Uint8Array): Float64Array {
  const { causes: n, tests, outcomeStart, chance, negEntropy } = problem;
  const divergence = new Float64Array(tests * n);
  const input = new Float64Array(causes.length);
  for (let j = 0; j < tests; j++) {
    if (useful[j] === 0 || problem.success[j] > 0) continue;
    const first = outcomeStart[j];
    const last = outcomeStart[j + 1];
    input.fill(1 / causes.length);
    for (let round = 0; ; round++) {
      for (const i of causes) divergence[j * n + i] = negEntropy[j * n + i];
      for (let o = first; o < last; o++) {
        let law = 0;
        for (let c = 0; c < causes.length; c++) law += input[c] * chance[o * n + causes[c]];
        if (law <= 0) continue;
        const log = Math.log(law);
        for (const i of causes) divergence[j * n + i] -= chance[o * n + i] * log;
      }
      if (round === ROUNDS) break;
      let sum = 0;
      for (let c = 0; c < causes.length; c++) {
        // The floor keeps every cause in the law, so that no divergence is infinite.
        input[c] = Math.max(1e-100, input[c] * Math.exp(divergence[j * n + causes[c]]));
        sum += input[c];
      }
      for (let c = 0; c < causes.length; c++) input[c] /= sum;
    }
  }
  return divergence;
}
