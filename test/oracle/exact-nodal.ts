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

/** Gauss's elimination in fractions; any pivot that is not 0 will do. */
function solveExactly(matrix: Rational[][], right: Rational[]): Rational[] {
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
  const solution = new Array<Rational>(size).fill(Rational.zero);
  for (let k = size - 1; k >= 0; k--) {
    let sum = right[k];
    for (let c = k + 1; c < size; c++) sum = sum.minus(matrix[k][c].times(solution[c]));
    solution[k] = sum.over(matrix[k][k]);
  }
  return solution;
}
