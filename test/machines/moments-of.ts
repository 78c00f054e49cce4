import type { Prediction } from "../../src/core/predict/index.ts";

/** Mean and standard deviation of a predicted reading, all its terms together; none of them may be an open. */
export function momentsOf({ terms }: Prediction): { mean: number; sigma: number } {
  let mean = 0;
  let square = 0;
  for (const term of terms) {
    if (term.kind === "open") throw new Error("open");
    mean += term.weight * term.mean;
    square += term.weight * (term.sigma ** 2 + term.mean ** 2);
  }
  return { mean, sigma: Math.sqrt(square - mean * mean) };
}
