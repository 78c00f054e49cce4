import type { Expression, Node, Operator } from "../part/index.ts";

/** Value of a name that is a constant here (a rating at its nominal value); `undefined` for what varies. */
export type ConstantOf = (name: string) => number | undefined;

/** One way a condition can hold: limits on what it looks at, and what it wants true or false. */
interface Conjunct {
  readonly limits: ReadonlyMap<string, Limits>;
  readonly wanted: ReadonlyMap<string, boolean>;
  /** It also wants something we do not understand. */
  readonly more: boolean;
}

interface Limits {
  readonly lo: number;
  readonly hi: number;
  /** Whether the limit itself is left out. */
  readonly loOpen: boolean;
  readonly hiOpen: boolean;
}

/** Conditions that fall into more cases than this are left alone. */
const MOST_CASES = 64;

/**
 * Can the condition never hold, whatever the machine does? Sees constants (`2 > 3`) and contradictions about one
 * quantity (`temp > 80 and temp < 60`, `shut and not shut`); anything deeper is taken to be possible.
 */
export function neverHolds(expression: Expression, constantOf: ConstantOf = () => undefined): boolean {
  const cases = casesOf(expression.root, false, constantOf);
  return cases?.every(contradicts) ?? false;
}

/**
 * Can two conditions surely hold at once? Sees only cases that look at the very same quantities, so that a "yes" is
 * sure; the two moves of a state must not (`opens` at 60 and `closes` at 80 chatter).
 */
export function holdTogether(a: Expression, b: Expression, constantOf: ConstantOf = () => undefined): boolean {
  const casesA = casesOf(a.root, false, constantOf) ?? [];
  const casesB = casesOf(b.root, false, constantOf) ?? [];
  return casesA.some((one) => casesB.some((other) => alike(one, other) && !contradicts(joined(one, other))));
}

function alike(a: Conjunct, b: Conjunct): boolean {
  const names = (of: Conjunct): string => [...of.limits.keys(), ...of.wanted.keys()].sort().join("\n");
  return !a.more && !b.more && !contradicts(a) && !contradicts(b) && names(a) === names(b);
}

function contradicts({ limits }: Conjunct): boolean {
  for (const { lo, hi, loOpen, hiOpen } of limits.values()) {
    if (lo > hi || (lo === hi && (loOpen || hiOpen))) return true;
  }
  return false;
}

const ALWAYS: Conjunct = { limits: new Map(), wanted: new Map(), more: false };
const NEVER: Conjunct = { ...ALWAYS, limits: new Map([["", { lo: 1, hi: 0, loOpen: false, hiOpen: false }]]) };

/** The cases of a condition, or of its negation; `undefined` when there are too many. */
function casesOf(node: Node, negated: boolean, constantOf: ConstantOf): readonly Conjunct[] | undefined {
  const constant = constantValue(node, constantOf);
  if (constant !== undefined) return [(constant !== 0) !== negated ? ALWAYS : NEVER];
  switch (node.is) {
    case "not":
      return casesOf(node.of, !negated, constantOf);
    case "and":
    case "or": {
      const left = casesOf(node.left, negated, constantOf);
      const right = casesOf(node.right, negated, constantOf);
      if (left === undefined || right === undefined) return undefined;
      const both = (node.is === "and") !== negated;
      const cases = both ? left.flatMap((one) => right.map((other) => joined(one, other))) : [...left, ...right];
      return cases.length > MOST_CASES ? undefined : cases;
    }
    case "operation":
      return [comparison(node.left, node.operator, node.right, negated, constantOf)];
    case "name":
    case "state":
      return [{ ...ALWAYS, wanted: new Map([[keyOf(node), !negated]]) }];
    default:
      return [{ ...ALWAYS, more: true }];
  }
}

function joined(a: Conjunct, b: Conjunct): Conjunct {
  const limits = new Map(a.limits);
  for (const [key, other] of b.limits) {
    const own = limits.get(key);
    limits.set(key, own === undefined ? other : narrower(own, other));
  }
  const wanted = new Map(a.wanted);
  for (const [key, truth] of b.wanted) {
    if ((wanted.get(key) ?? truth) !== truth) return NEVER;
    wanted.set(key, truth);
  }
  return { limits, wanted, more: a.more || b.more };
}

function narrower(a: Limits, b: Limits): Limits {
  const low = a.lo > b.lo || (a.lo === b.lo && a.loOpen) ? a : b;
  const high = a.hi < b.hi || (a.hi === b.hi && a.hiOpen) ? a : b;
  return { lo: low.lo, loOpen: low.loOpen, hi: high.hi, hiOpen: high.hiOpen };
}

const OPPOSITE: Partial<Record<Operator, Operator>> = { "<": ">=", "<=": ">", ">": "<=", ">=": "<" };
const MIRRORED: Partial<Record<Operator, Operator>> = { "<": ">", "<=": ">=", ">": "<", ">=": "<=" };

function comparison(left: Node, operator: Operator, right: Node, negated: boolean, constantOf: ConstantOf): Conjunct {
  const meant = negated ? OPPOSITE[operator] : operator;
  const [l, r] = [constantValue(left, constantOf), constantValue(right, constantOf)];
  const subject = l === undefined ? left : right;
  const limit = l ?? r;
  const seen = l === undefined ? meant : meant === undefined ? undefined : MIRRORED[meant];
  if (limit === undefined || (l !== undefined && r !== undefined) || seen === undefined)
    return { ...ALWAYS, more: true };
  const whole: Limits = { lo: -Infinity, hi: Infinity, loOpen: false, hiOpen: false };
  const limits = ((): Limits | undefined => {
    switch (seen) {
      case "<":
        return { ...whole, hi: limit, hiOpen: true };
      case "<=":
        return { ...whole, hi: limit };
      case ">":
        return { ...whole, lo: limit, loOpen: true };
      case ">=":
        return { ...whole, lo: limit };
      default:
        return undefined;
    }
  })();
  return limits === undefined ? { ...ALWAYS, more: true } : { ...ALWAYS, limits: new Map([[keyOf(subject), limits]]) };
}

/** A node without its places in the text: equal for equal formulas. */
function keyOf(node: Node): string {
  return JSON.stringify(node, (key, value: unknown) => (key === "column" ? undefined : value));
}

function constantValue(node: Node, constantOf: ConstantOf): number | undefined {
  switch (node.is) {
    case "number":
      return node.value;
    case "name":
      return node.current === undefined ? constantOf(node.name) : undefined;
    case "minus": {
      const of = constantValue(node.of, constantOf);
      return of === undefined ? undefined : -of;
    }
    case "operation": {
      const left = constantValue(node.left, constantOf);
      const right = constantValue(node.right, constantOf);
      return left === undefined || right === undefined ? undefined : operate(node.operator, left, right);
    }
    default:
      return undefined;
  }
}

function operate(operator: Operator, a: number, b: number): number {
  switch (operator) {
    case "+":
      return a + b;
    case "-":
      return a - b;
    case "*":
      return a * b;
    case "/":
      return a / b;
    case "<":
      return Number(a < b);
    case "<=":
      return Number(a <= b);
    case ">":
      return Number(a > b);
    case ">=":
      return Number(a >= b);
    case "==":
      return Number(a === b);
    case "!=":
      return Number(a !== b);
  }
}
