/** An exact fraction, reduced, bottom > 0. The truth that floating-point answers are judged by. */
export class Rational {
  static readonly zero = new Rational(0n, 1n);
  readonly top: bigint;
  readonly bottom: bigint;

  private constructor(top: bigint, bottom: bigint) {
    this.top = top;
    this.bottom = bottom;
  }

  static of(top: bigint, bottom: bigint): Rational {
    if (bottom === 0n) throw new Error("a fraction of nothing");
    const sign = bottom < 0n ? -1n : 1n;
    const shared = commonDivisor(top < 0n ? -top : top, bottom * sign);
    return new Rational((sign * top) / shared, (sign * bottom) / shared);
  }

  /** The double itself, which is a whole number times a power of two. */
  static from(value: number): Rational {
    let whole = value;
    let halvings = 0n;
    while (!Number.isInteger(whole)) {
      whole *= 2;
      halvings++;
    }
    return Rational.of(BigInt(whole), 1n << halvings);
  }

  plus(other: Rational): Rational {
    return Rational.of(this.top * other.bottom + other.top * this.bottom, this.bottom * other.bottom);
  }

  minus(other: Rational): Rational {
    return Rational.of(this.top * other.bottom - other.top * this.bottom, this.bottom * other.bottom);
  }

  times(other: Rational): Rational {
    return Rational.of(this.top * other.top, this.bottom * other.bottom);
  }

  over(other: Rational): Rational {
    return Rational.of(this.top * other.bottom, this.bottom * other.top);
  }

  get isZero(): boolean {
    return this.top === 0n;
  }

  /** |found − this| / |this|, or |found| where this is 0. */
  relativeErrorOf(found: number): number {
    const gap = Rational.from(found).minus(this);
    const share = this.isZero ? gap : gap.over(this);
    return Math.abs(share.toNumber());
  }

  toNumber(): number {
    if (this.top === 0n) return 0;
    const bits = (value: bigint): number => (value < 0n ? -value : value).toString(2).length;
    const shift = 80 - bits(this.top) + bits(this.bottom);
    const scaled = shift >= 0 ? (this.top << BigInt(shift)) / this.bottom : this.top / (this.bottom << BigInt(-shift));
    return Number(scaled) * 2 ** -shift;
  }
}

function commonDivisor(a: bigint, b: bigint): bigint {
  let x = a;
  let y = b;
  while (y !== 0n) [x, y] = [y, x % y];
  return x === 0n ? 1n : x;
}
