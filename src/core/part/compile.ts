import { type Checked, IssueList } from "../issue/index.ts";
import { type Ask, askOf, holdsAt, nameOf, spell } from "./ask.ts";
import type { Evaluate, Haste, Moment } from "./expression.ts";
import type { Expression, Node, Operator } from "./formula.ts";
import { didYouMean } from "./nearest.ts";

/** Names made into values. A number is a constant and gets folded. */
export interface Resolver {
  resolve(ask: Ask): Evaluate | number | undefined;
  /** Names that could have been meant, for "did you mean". */
  known?(ask: Ask): Iterable<string>;
}

type Compiled = Evaluate | number;

/**
 * A formula as a closure over one moment of a machine. Truth is 1, falsehood 0; anything but 0 counts as true.
 * Constants are folded; evaluating allocates nothing.
 *
 * An unknown name is an issue, and so is `at` (a formula has one moment; `splitAt` takes signs apart first).
 */
export function compileExpression(expression: Expression, resolver: Resolver): Checked<Evaluate> {
  return compileNode(expression.root, expression, resolver);
}

/** A test on several moments of a step, as `SignTest` of the sheet wants it. */
export type TimedTest =
  | { readonly all: readonly TimedTest[] }
  | { readonly any: readonly TimedTest[] }
  | { readonly not: TimedTest }
  | { readonly at: Haste | "end"; readonly when: Evaluate };

/**
 * A sign's condition taken apart at its `at`s: what has none is looked at in the moment `otherwise`.
 *
 * @example splitAt(parse("heat > 1 W at seconds and heat < 1 W at minutes"), "minutes", resolver)
 *          // { all: [{ at: "seconds", when }, { at: "minutes", when }] }
 */
export function splitAt(expression: Expression, otherwise: Haste | "end", resolver: Resolver): Checked<TimedTest> {
  const issues = new IssueList();
  const never: TimedTest = { at: otherwise, when: () => 0 };
  const split = (node: Node, at: Haste | "end"): TimedTest => {
    if (node.is === "at") return split(node.of, node.when);
    if (holdsAt(node)) {
      if (node.is === "and") return { all: [split(node.left, at), split(node.right, at)] };
      if (node.is === "or") return { any: [split(node.left, at), split(node.right, at)] };
      if (node.is === "not") return { not: split(node.of, at) };
    }
    const when = issues.take(compileNode(node, expression, resolver));
    return when === undefined ? never : { at, when };
  };
  const test = split(expression.root, otherwise);
  return issues.conclude(() => test);
}

function compileNode(root: Node, expression: Expression, resolver: Resolver): Checked<Evaluate> {
  const issues = new IssueList();
  const refuse = (column: number, code: string, found: string, expected: string, hint?: string): number => {
    issues.add({
      code,
      severity: "error",
      ...expression.place,
      found: `${found} in column ${column} of "${expression.text}"`,
      expected,
      ...(hint === undefined ? {} : { hint }),
    });
    return 0;
  };
  const ask = (asked: Ask, column: number): Compiled => {
    const answer = resolver.resolve(asked);
    if (answer !== undefined) return answer;
    const typed = asked.for === "state" ? asked.phrase : asked.for === "hottest" ? asked.group : nameOf(asked);
    const hint = resolver.known === undefined ? undefined : didYouMean(typed, resolver.known(asked));
    return refuse(column, "formula.unknown-name", `"${nameOf(asked)}"`, "a name that is known here", hint);
  };
  const compile = (node: Node): Compiled => {
    switch (node.is) {
      case "number":
        return node.value;
      case "name":
      case "between":
      case "pair":
      case "state":
      case "hottest": {
        const asked = askOf(node);
        if (asked === undefined) throw new Error(`a ${node.is} asks for nothing`);
        return ask(asked, node.column);
      }
      case "good": {
        const of = compile(node.of);
        return ask(
          { for: "good", text: spell(node.of), evaluate: typeof of === "number" ? () => of : of },
          node.column,
        );
      }
      case "operation":
        return operate(node.operator, compile(node.left), compile(node.right));
      case "call":
        return call(node.name, node.operands.map(compile));
      case "between-values":
        return within(compile(node.value), compile(node.lo), compile(node.hi));
      case "minus": {
        const of = compile(node.of);
        return typeof of === "number" ? -of : (m) => -of(m);
      }
      case "not": {
        const of = compile(node.of);
        return typeof of === "number" ? Number(of === 0) : (m) => (of(m) === 0 ? 1 : 0);
      }
      case "and":
        return both(compile(node.left), compile(node.right));
      case "or":
        return either(compile(node.left), compile(node.right));
      case "at":
        return refuse(
          node.column,
          "formula.at",
          `"at ${node.when}"`,
          "a formula about one moment",
          "Only a sign may say at.",
        );
    }
  };
  const compiled = compile(root);
  return issues.conclude(() => (typeof compiled === "number" ? () => compiled : compiled));
}

const operations: Readonly<Record<Operator, (a: number, b: number) => number>> = {
  "+": (a, b) => a + b,
  "-": (a, b) => a - b,
  "*": (a, b) => a * b,
  "/": (a, b) => a / b,
  "<": (a, b) => (a < b ? 1 : 0),
  "<=": (a, b) => (a <= b ? 1 : 0),
  ">": (a, b) => (a > b ? 1 : 0),
  ">=": (a, b) => (a >= b ? 1 : 0),
  "==": (a, b) => (a === b ? 1 : 0),
  "!=": (a, b) => (a !== b ? 1 : 0),
};

/** One closure an operator: a call through the table above would cost more than the arithmetic. */
function operate(operator: Operator, left: Compiled, right: Compiled): Compiled {
  if (typeof left === "number" && typeof right === "number") return operations[operator](left, right);
  if (typeof right === "number" && typeof left !== "number") {
    switch (operator) {
      case "+":
        return (m) => left(m) + right;
      case "-":
        return (m) => left(m) - right;
      case "*":
        return (m) => left(m) * right;
      case "/":
        return (m) => left(m) / right;
      case "<":
        return (m) => (left(m) < right ? 1 : 0);
      case "<=":
        return (m) => (left(m) <= right ? 1 : 0);
      case ">":
        return (m) => (left(m) > right ? 1 : 0);
      case ">=":
        return (m) => (left(m) >= right ? 1 : 0);
      default:
    }
  }
  const l = evaluated(left);
  const r = evaluated(right);
  switch (operator) {
    case "+":
      return (m) => l(m) + r(m);
    case "-":
      return (m) => l(m) - r(m);
    case "*":
      return (m) => l(m) * r(m);
    case "/":
      return (m) => l(m) / r(m);
    case "<":
      return (m) => (l(m) < r(m) ? 1 : 0);
    case "<=":
      return (m) => (l(m) <= r(m) ? 1 : 0);
    case ">":
      return (m) => (l(m) > r(m) ? 1 : 0);
    case ">=":
      return (m) => (l(m) >= r(m) ? 1 : 0);
    case "==":
      return (m) => (l(m) === r(m) ? 1 : 0);
    case "!=":
      return (m) => (l(m) !== r(m) ? 1 : 0);
  }
}

function both(left: Compiled, right: Compiled): Compiled {
  if (typeof left === "number") return left === 0 ? 0 : truth(right);
  if (typeof right === "number") return right === 0 ? 0 : truth(left);
  return (m) => (left(m) !== 0 && right(m) !== 0 ? 1 : 0);
}

function either(left: Compiled, right: Compiled): Compiled {
  if (typeof left === "number") return left === 0 ? truth(right) : 1;
  if (typeof right === "number") return right === 0 ? truth(left) : 1;
  return (m) => (left(m) !== 0 || right(m) !== 0 ? 1 : 0);
}

function truth(of: Compiled): Compiled {
  return typeof of === "number" ? Number(of !== 0) : (m) => (of(m) === 0 ? 0 : 1);
}

function within(value: Compiled, lo: Compiled, hi: Compiled): Compiled {
  if (typeof value === "number" && typeof lo === "number" && typeof hi === "number") {
    return Number(value >= lo && value <= hi);
  }
  const [v, l, h] = [evaluated(value), evaluated(lo), evaluated(hi)];
  return (m) => {
    const x = v(m);
    return x >= l(m) && x <= h(m) ? 1 : 0;
  };
}

function call(name: "max" | "min" | "abs" | "sqrt" | "exp" | "ln", operands: readonly Compiled[]): Compiled {
  if (name === "max" || name === "min") {
    const pick = { max: Math.max, min: Math.min }[name];
    return operands.reduce((left, right) => {
      if (typeof left === "number" && typeof right === "number") return pick(left, right);
      const [l, r] = [evaluated(left), evaluated(right)];
      return (m: Moment) => pick(l(m), r(m));
    });
  }
  const one = { abs: Math.abs, sqrt: Math.sqrt, exp: Math.exp, ln: Math.log }[name];
  const of = operands[0];
  if (of === undefined) throw new Error(`${name} without a value`);
  return typeof of === "number" ? one(of) : (m) => one(of(m));
}

function evaluated(of: Compiled): Evaluate {
  return typeof of === "number" ? () => of : of;
}
