/** Chance from a seed: the same seed gives the same numbers, on every machine. */
export interface Random {
  /** Uniform in 0 (in) .. 1 (out), 53 bits. */
  uniform(): number;
  /** Standard normal. */
  normal(): number;
  /** Index drawn with the given weights, which need not sum to 1. */
  pick(weights: ArrayLike<number>): number;
  /** A generator of its own for one named purpose; drawing from it does not move this one. */
  fork(label: string): Random;
}

/**
 * Generator xoshiro128** seeded through splitmix32.
 *
 * @source D. Blackman, S. Vigna, "Scrambled linear pseudorandom number generators", ACM TOMS 47 (2021)
 */
export function seeded(seed: number | string): Random {
  return new Xoshiro(String(seed));
}

class Xoshiro implements Random {
  readonly #seed: string;
  #a: number;
  #b: number;
  #c: number;
  #d: number;
  #spare: number | undefined;

  constructor(seed: string) {
    this.#seed = seed;
    const next = splitmix(hash(seed));
    this.#a = next();
    this.#b = next();
    this.#c = next();
    this.#d = next();
  }

  #next(): number {
    const result = Math.imul(rotate(Math.imul(this.#b, 5), 7), 9) >>> 0;
    const shifted = this.#b << 9;
    this.#c ^= this.#a;
    this.#d ^= this.#b;
    this.#b ^= this.#c;
    this.#a ^= this.#d;
    this.#c ^= shifted;
    this.#d = rotate(this.#d, 11);
    return result;
  }

  uniform(): number {
    return ((this.#next() >>> 5) * 67108864 + (this.#next() >>> 6)) / 9007199254740992;
  }

  normal(): number {
    const spare = this.#spare;
    if (spare !== undefined) {
      this.#spare = undefined;
      return spare;
    }
    for (;;) {
      const x = 2 * this.uniform() - 1;
      const y = 2 * this.uniform() - 1;
      const square = x * x + y * y;
      if (square >= 1 || square === 0) continue;
      const factor = Math.sqrt((-2 * Math.log(square)) / square);
      this.#spare = y * factor;
      return x * factor;
    }
  }

  pick(weights: ArrayLike<number>): number {
    let total = 0;
    for (let i = 0; i < weights.length; i++) total += weights[i];
    if (!(total > 0)) throw new Error("picking needs a weight above zero");
    let left = this.uniform() * total;
    let last = 0;
    for (let i = 0; i < weights.length; i++) {
      const weight = weights[i];
      if (weight <= 0) continue;
      last = i;
      left -= weight;
      if (left < 0) return i;
    }
    return last;
  }

  fork(label: string): Random {
    return new Xoshiro(`${this.#seed}/${label}`);
  }
}

function rotate(x: number, by: number): number {
  return (x << by) | (x >>> (32 - by));
}

/** FNV-1a over the code units. */
function hash(text: string): number {
  let value = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) value = Math.imul(value ^ text.charCodeAt(i), 0x01000193);
  return value >>> 0;
}

function splitmix(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x9e3779b9) | 0;
    let mixed = Math.imul(state ^ (state >>> 16), 0x21f0aaad);
    mixed = Math.imul(mixed ^ (mixed >>> 15), 0x735a2d97);
    return (mixed ^ (mixed >>> 15)) >>> 0;
  };
}
