import type { Haste } from "./expression.ts";
import type { Place } from "./place.ts";

/** A number kind asked for by a suffix: `~` the mains-frequency part alone, `=` the DC part alone. */
export type Current = "~" | "=";

export type Operator = "+" | "-" | "*" | "/" | "<" | "<=" | ">" | ">=" | "==" | "!=";

/** What a condition or formula is made of. `column` is 1-based, in the text of the expression. */
export type Node =
  | { readonly is: "number"; readonly value: number; readonly column: number }
  /** `heater.volts~`, `U`, `start-in.shut`; the suffix is split off. */
  | { readonly is: "name"; readonly name: string; readonly current?: Current; readonly column: number }
  /** `volts from X3.1 to N` */
  | {
      readonly is: "between";
      readonly from: string;
      readonly to: string;
      readonly current?: Current;
      readonly column: number;
    }
  /** `cross(main.amps ; aux.amps)`: names without `.amps`. */
  | {
      readonly is: "pair";
      readonly what: "cross" | "apart";
      readonly a: string;
      readonly b: string;
      readonly column: number;
    }
  /** `is pulled`, `motor is turning`, `control is not timer` (the `not` becomes a node of its own). */
  | { readonly is: "state"; readonly subject?: string; readonly phrase: string; readonly column: number }
  /** `hottest plug` */
  | { readonly is: "hottest"; readonly group: string; readonly column: number }
  /** What the healthy machine has: `good heat`, or `of good` for the other side of the comparison. */
  | { readonly is: "good"; readonly of: Node; readonly column: number }
  | { readonly is: "call"; readonly name: FunctionName; readonly operands: readonly Node[]; readonly column: number }
  | {
      readonly is: "operation";
      readonly operator: Operator;
      readonly left: Node;
      readonly right: Node;
      readonly column: number;
    }
  | {
      readonly is: "between-values";
      readonly value: Node;
      readonly lo: Node;
      readonly hi: Node;
      readonly column: number;
    }
  | { readonly is: "minus" | "not"; readonly of: Node; readonly column: number }
  | { readonly is: "and" | "or"; readonly left: Node; readonly right: Node; readonly column: number }
  /** `heat > 100 W at seconds` */
  | { readonly is: "at"; readonly when: Haste | "end"; readonly of: Node; readonly column: number };

export type FunctionName = "max" | "min" | "abs" | "sqrt" | "exp" | "ln";

/** A parsed formula or condition; see `parseExpression`. */
export interface Expression {
  readonly text: string;
  readonly root: Node;
  readonly place: Place;
}
