import { Rational } from "./rational.ts";

/** A resistor, ohms as a double; infinite ohms are left out. */
export interface ExactResistor {
  readonly a: number;
  readonly b: number;
  readonly ohms: number;
}

/** A node held at a potential, volts. */
export interface Fixed {
  readonly node: number;
  readonly volts: number;
}

/**
 * Potentials of all nodes that hang together with the fixed ones, by the textbook nodal equations in exact fractions;
 * `amperes` flow into the nodes given. Nodes in other islands are undefined.
 */
export function exactPotentials(
  nodes: number,
  resistors: readonly ExactResistor[],
  fixed: readonly Fixed[],
  amperes: readonly { readonly node: number; readonly amperes: number }[] = [],
): (Rational | undefined)[] {
  const joining = resistors.filter(({ a, b, ohms }) => a !== b && Number.isFinite(ohms));
  const reached = new Set(fixed.map(({ node }) => node));
  for (const node of reached) {
    for (const { a, b } of joining) {
      if (a === node) reached.add(b);
      if (b === node) reached.add(a);
    }
  }
  const potentials = new Array<Rational | undefined>(nodes).fill(undefined);
  for (const { node, volts } of fixed) potentials[node] = Rational.from(volts);
  const unknown = [...reached].filter((node) => potentials[node] === undefined);
  const row = new Map(unknown.map((node, r) => [node, r]));
  const matrix = unknown.map(() => unknown.map(() => Rational.zero));
  const right = unknown.map((node) =>
    amperes
      .filter((given) => given.node === node)
      .reduce((sum, given) => sum.plus(Rational.from(given.amperes)), Rational.zero),
  );
  for (const { a, b, ohms } of joining) {
    const siemens = Rational.from(1).over(Rational.from(ohms));
    for (const [from, to] of [
      [a, b],
      [b, a],
    ] as const) {
      const r = row.get(from);
      if (r === undefined) continue;
      matrix[r][r] = matrix[r][r].plus(siemens);
      const c = row.get(to);
      if (c !== undefined) matrix[r][c] = matrix[r][c].minus(siemens);
      else right[r] = right[r].plus(siemens.times(potentials[to] ?? Rational.zero));
    }
  }
  const solution = solveExactly(matrix, right);
  for (const [node, r] of row) potentials[node] = solution[r];
  return potentials;
}

/** Ohms between two nodes, exactly; undefined where no path joins them. */
export function exactOhms(
  nodes: number,
  resistors: readonly ExactResistor[],
  p: number,
  q: number,
): Rational | undefined {
  const linked = exactPotentials(nodes, resistors, [{ node: q, volts: 0 }])[p];
  if (linked === undefined) return undefined;
  return exactPotentials(nodes, resistors, [{ node: q, volts: 0 }], [{ node: p, amperes: 1 }])[p];
}

/** What Gauss's elimination needs of its numbers. */
interface Exact<T> {
  readonly isZero: boolean;
  plus(other: T): T;
  minus(other: T): T;
  times(other: T): T;
  over(other: T): T;
}

/** Gauss's elimination on exact numbers; any pivot that is not 0 will do. */
function solveExactly<T extends Exact<T>>(matrix: T[][], right: T[]): T[] {
  const size = right.length;
  for (let k = 0; k < size; k++) {
    const pivot = matrix.findIndex((line, r) => r >= k && !line[k].isZero);
    if (pivot < 0) throw new Error("singular");
    [matrix[k], matrix[pivot]] = [matrix[pivot], matrix[k]];
    [right[k], right[pivot]] = [right[pivot], right[k]];
    for (let r = k + 1; r < size; r++) {
      if (matrix[r][k].isZero) continue;
      const factor = matrix[r][k].over(matrix[k][k]);
      for (let c = k; c < size; c++) {
        if (!matrix[k][c].isZero) matrix[r][c] = matrix[r][c].minus(factor.times(matrix[k][c]));
      }
      right[r] = right[r].minus(factor.times(right[k]));
    }
  }
  const solution = [...right];
  for (let k = size - 1; k >= 0; k--) {
    for (let c = k + 1; c < size; c++) solution[k] = solution[k].minus(matrix[k][c].times(solution[c]));
    solution[k] = solution[k].over(matrix[k][k]);
  }
  return solution;
}

/** An exact complex number. */
export class ExactComplex {
  static readonly zero = new ExactComplex(Rational.zero, Rational.zero);
  readonly re: Rational;
  readonly im: Rational;

  constructor(re: Rational, im: Rational) {
    this.re = re;
    this.im = im;
  }

  get isZero(): boolean {
    return this.re.isZero && this.im.isZero;
  }

  plus(other: ExactComplex): ExactComplex {
    return new ExactComplex(this.re.plus(other.re), this.im.plus(other.im));
  }

  minus(other: ExactComplex): ExactComplex {
    return new ExactComplex(this.re.minus(other.re), this.im.minus(other.im));
  }

  times(other: ExactComplex): ExactComplex {
    return new ExactComplex(
      this.re.times(other.re).minus(this.im.times(other.im)),
      this.re.times(other.im).plus(this.im.times(other.re)),
    );
  }

  over({ re, im }: ExactComplex): ExactComplex {
    const square = re.times(re).plus(im.times(im));
    const across = this.times(new ExactComplex(re, Rational.zero.minus(im)));
    return new ExactComplex(across.re.over(square), across.im.over(square));
  }
}

/**
 * Potentials of every node of one connected AC network over node 0, by the nodal equations in exact complex fractions:
 * `siemens` between nodes, and one node held at `volts`.
 */
export function exactPhasors(
  nodes: number,
  siemens: readonly { readonly a: number; readonly b: number; readonly value: ExactComplex }[],
  held: Fixed,
): ExactComplex[] {
  const unknown = Array.from({ length: nodes }, (_, node) => node).filter((node) => node !== 0 && node !== held.node);
  const volts = new ExactComplex(Rational.from(held.volts), Rational.zero);
  const matrix = unknown.map(() => unknown.map(() => ExactComplex.zero));
  const right = unknown.map(() => ExactComplex.zero);
  for (const { a, b, value } of siemens) {
    for (const [from, to] of [
      [a, b],
      [b, a],
    ] as const) {
      const r = unknown.indexOf(from);
      const c = unknown.indexOf(to);
      if (r < 0) continue;
      matrix[r][r] = matrix[r][r].plus(value);
      if (c >= 0) matrix[r][c] = matrix[r][c].minus(value);
      else if (to === held.node) right[r] = right[r].plus(value.times(volts));
    }
  }
  const solution = solveExactly(matrix, right);
  return Array.from({ length: nodes }, (_, node) =>
    node === 0 ? ExactComplex.zero : node === held.node ? volts : solution[unknown.indexOf(node)],
  );
}
