import type { Evaluate } from "./expression.ts";
import type { Current, Expression, Node } from "./formula.ts";

/** What a formula asks of whoever knows the machine. */
export type Ask =
  | { readonly for: "value"; readonly name: string; readonly current?: Current }
  /** Volts between two points or wires. */
  | { readonly for: "between"; readonly from: string; readonly to: string; readonly current?: Current }
  /** Two elements' currents together. */
  | { readonly for: "cross" | "apart"; readonly a: string; readonly b: string }
  /** 1 where `subject` (or the part itself) is in the state, or the slot holds the variant, that `phrase` names. */
  | { readonly for: "state"; readonly subject?: string; readonly phrase: string }
  /** Watts of the hottest member of a group. */
  | { readonly for: "hottest"; readonly group: string }
  /** What `evaluate` gives in the healthy machine at the same step and moment. */
  | { readonly for: "good"; readonly text: string; readonly evaluate: Evaluate };

/** Every name an expression asks for, once each, as it would be asked: for lint and for "what does this depend on". */
export function namesIn(expression: Expression): readonly Exclude<Ask, { for: "good" }>[] {
  const found = new Map<string, Exclude<Ask, { for: "good" }>>();
  const walk = (node: Node): void => {
    const ask = askOf(node);
    if (ask !== undefined) found.set(JSON.stringify(ask), ask);
    for (const operand of operandsOf(node)) walk(operand);
  };
  walk(expression.root);
  return [...found.values()];
}

/** What a node asks for, when it is one that asks. */
export function askOf(node: Node): Exclude<Ask, { for: "good" }> | undefined {
  switch (node.is) {
    case "name":
      return { for: "value", name: node.name, ...(node.current === undefined ? {} : { current: node.current }) };
    case "between":
      return {
        for: "between",
        from: node.from,
        to: node.to,
        ...(node.current === undefined ? {} : { current: node.current }),
      };
    case "pair":
      return { for: node.what, a: node.a, b: node.b };
    case "state":
      return {
        for: "state",
        ...(node.subject === undefined ? {} : { subject: node.subject }),
        phrase: node.phrase,
      };
    case "hottest":
      return { for: "hottest", group: node.group };
    default:
      return undefined;
  }
}

/** The name a person reads in an issue. */
export function nameOf(ask: Ask): string {
  switch (ask.for) {
    case "value":
      return ask.name;
    case "between":
      return `volts from ${ask.from} to ${ask.to}`;
    case "cross":
    case "apart":
      return `${ask.for}(${ask.a}.amps ; ${ask.b}.amps)`;
    case "state":
      return ask.subject === undefined ? `is ${ask.phrase}` : `${ask.subject} is ${ask.phrase}`;
    case "hottest":
      return `hottest ${ask.group}`;
    case "good":
      return `good ${ask.text}`;
  }
}

/** Does the condition look at more than the moment it is asked in? */
export function holdsAt(node: Node): boolean {
  return node.is === "at" || operandsOf(node).some(holdsAt);
}

/** The parts of a node that are nodes themselves. */
export function operandsOf(node: Node): readonly Node[] {
  switch (node.is) {
    case "operation":
    case "and":
    case "or":
      return [node.left, node.right];
    case "call":
      return node.operands;
    case "between-values":
      return [node.value, node.lo, node.hi];
    case "minus":
    case "not":
    case "at":
    case "good":
      return [node.of];
    default:
      return [];
  }
}

/** A node written out again: the key under which "of good" is kept. */
export function spell(node: Node): string {
  switch (node.is) {
    case "number":
      return String(node.value);
    case "call":
      return `${node.name}(${node.operands.map(spell).join(" ; ")})`;
    case "operation":
      return `(${spell(node.left)} ${node.operator} ${spell(node.right)})`;
    case "and":
    case "or":
      return `(${spell(node.left)} ${node.is} ${spell(node.right)})`;
    case "between-values":
      return `(${spell(node.value)} between ${spell(node.lo)} and ${spell(node.hi)})`;
    case "minus":
      return `-${spell(node.of)}`;
    case "not":
      return `not ${spell(node.of)}`;
    case "at":
      return `${spell(node.of)} at ${node.when}`;
    case "good":
      return `good ${spell(node.of)}`;
    default: {
      const asked = askOf(node);
      if (asked === undefined) throw new Error(`a ${node.is} asks for nothing`);
      const suffix = "current" in asked && asked.current !== undefined ? asked.current : "";
      return nameOf(asked) + suffix;
    }
  }
}
