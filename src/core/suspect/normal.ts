import { erfc, erfcx, gaussLegendre } from "../chance/index.ts";
import { add, addDouble, divide, minusHalfSquare, multiply, negate, sumOf, type Twofold, value } from "./twofold.ts";

/** Exact to double precision for the exponents up to 4 that `narrow` meets. */
const LEGENDRE = gaussLegendre(24);
const HALF_LOG_TAU = 0.9189385332046727;
/** Beyond this many sigmas a log chance is not a number a double holds. */
const FARTHEST = 1e150;

/** (y − mean)/sigma, exact to some 32 digits: all three are scaled by a power of two first, so nothing overflows early. */
export function sigmasFrom(mean: number, y: number, sigma: number): Twofold {
  const scale = 2 ** -Math.floor(Math.log2(sigma));
  const safe = Number.isFinite(scale) && scale > 0 ? scale : 1;
  const distance = sumOf(y * safe, -mean * safe);
  if (!Number.isFinite(distance.hi) || !Number.isFinite(distance.lo)) {
    return { hi: (y > mean ? 1 : -1) * Number.POSITIVE_INFINITY, lo: 0 };
  }
  if (Math.abs(distance.hi) > FARTHEST) return { hi: Math.sign(distance.hi) * Number.POSITIVE_INFINITY, lo: 0 };
  return divide(distance, sigma * safe);
}

/** ln of the standard normal density at z, less ln(sigma) of the scale it is taken at. */
export function logDensity(z: Twofold, sigma: number): Twofold {
  if (!Number.isFinite(z.hi)) return { hi: Number.NEGATIVE_INFINITY, lo: 0 };
  return addDouble(addDouble(minusHalfSquare(z), -Math.log(sigma)), -HALF_LOG_TAU);
}

/** ln P(Z > z). */
export function logAbove(z: Twofold): Twofold {
  if (z.hi === Number.POSITIVE_INFINITY) return { hi: Number.NEGATIVE_INFINITY, lo: 0 };
  if (z.hi < 0) return { hi: Math.log1p(-tail(-value(z))), lo: 0 };
  return addDouble(minusHalfSquare(z), Math.log(erfcx(value(z) / Math.SQRT2) / 2));
}

/** ln P(Z < z). */
export function logBelow(z: Twofold): Twofold {
  return logAbove(negate(z));
}

/**
 * ln P(low < Z < high), without the cancellation of two tails: a narrow interval by quadrature about its middle,
 * a wide one from the tails outside it.
 */
export function logBetween(low: Twofold, high: Twofold, width: number): Twofold {
  if (low.hi + high.hi < 0) return logBetween(negate(high), negate(low), width);
  if (!Number.isFinite(low.hi)) {
    return low.hi > 0 ? { hi: Number.NEGATIVE_INFINITY, lo: 0 } : logBelow(high);
  }
  if (!Number.isFinite(high.hi)) return logAbove(low);
  const middle = multiply(add(low, high), { hi: 0.5, lo: 0 });
  if (width * Math.max(1, value(middle)) <= 4) return narrow(middle, width);
  if (low.hi >= 0) {
    const whole = logAbove(low);
    return addDouble(whole, Math.log1p(-Math.exp(value(add(logAbove(high), negate(whole))))));
  }
  return { hi: Math.log1p(-(tail(value(high)) + tail(-value(low)))), lo: 0 };
}

function narrow(middle: Twofold, width: number): Twofold {
  const m = value(middle);
  let mean = 0;
  for (let i = 0; i < LEGENDRE.points.length; i++) {
    const t = width * (LEGENDRE.points[i] - 0.5);
    mean += LEGENDRE.weights[i] * Math.exp(-m * t - (t * t) / 2);
  }
  return addDouble(addDouble(minusHalfSquare(middle), Math.log(width) - HALF_LOG_TAU), Math.log(mean));
}

function tail(z: number): number {
  return erfc(z / Math.SQRT2) / 2;
}
