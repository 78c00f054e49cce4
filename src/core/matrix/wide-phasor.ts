import { add, divide, multiply, pi, subtract, type Wide, wide, zero } from "./wide.ts";
import type { WideComplex } from "./wide-complex.ts";

/** e^(jφ) for an angle in degrees: a multiple of 90 is exact, the rest by the power series within ±45°. */
export function unitPhasor(degrees: Wide): WideComplex {
  const quarters = Math.round(degrees.hi / 90);
  const rest = divide(multiply(subtract(degrees, wide(quarters * 90)), pi), wide(180));
  let sine = zero;
  let cosine = zero;
  let term = wide(1);
  for (let n = 0; n < 30; n++) {
    if (n % 2 === 0) cosine = n % 4 === 0 ? add(cosine, term) : subtract(cosine, term);
    else sine = n % 4 === 1 ? add(sine, term) : subtract(sine, term);
    term = divide(multiply(term, rest), wide(n + 1));
  }
  const minusSine = subtract(zero, sine);
  const minusCosine = subtract(zero, cosine);
  switch (((quarters % 4) + 4) % 4) {
    case 0:
      return { re: cosine, im: sine };
    case 1:
      return { re: minusSine, im: cosine };
    case 2:
      return { re: minusCosine, im: minusSine };
    default:
      return { re: sine, im: minusCosine };
  }
}
