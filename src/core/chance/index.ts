// The door of `chance`: distributions, log-weights, quantiles, quadrature, a seeded generator.
export { betaCdf, betaQuantile, betaSf, logBeta } from "./beta.ts";
export { binomialLogPmf, clopperPearson } from "./binomial.ts";
export { erf, erfc, erfcx } from "./error-function.ts";
export { gammaCdf, gammaQuantile, gammaSf, logGamma } from "./gamma.ts";
export { logAdd, logOneMinusExp, logSumExp, normaliseLogs } from "./logs.ts";
export {
  logNormalBand,
  logNormalCdf,
  logNormalInterval,
  logNormalPdf,
  logNormalSf,
  normalCdf,
  normalPdf,
  normalQuantile,
  normalSf,
} from "./normal.ts";
export { type Moments, momentsOverGrid, type Sample, sample, shortestInterval } from "./propagate.ts";
export { gaussHermite, gaussLegendre, type Rule } from "./quadrature.ts";
export { type Random, seeded } from "./random.ts";
export { draw, quadrature, quantileOf } from "./rated-spread.ts";
export { operationsToShow, type SequentialAim, sequentialBounds } from "./sequential.ts";
export { studentQuantile, studentSf } from "./student.ts";
