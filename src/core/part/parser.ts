import { parseAmount } from "../quantity/index.ts";
import type { Haste } from "./expression.ts";
import type { FunctionName, Node, Operator } from "./formula.ts";
import { didYouMean } from "./nearest.ts";
import type { Token } from "./token.ts";

const MOST_LEVELS = 60;
const comparisons = new Set(["<", "<=", ">", ">=", "==", "!=", "="]);
const functions: ReadonlyMap<string, { readonly least: number; readonly most: number }> = new Map<
  FunctionName,
  { least: number; most: number }
>([
  ["max", { least: 2, most: 64 }],
  ["min", { least: 2, most: 64 }],
  ["abs", { least: 1, most: 1 }],
  ["sqrt", { least: 1, most: 1 }],
  ["exp", { least: 1, most: 1 }],
  ["ln", { least: 1, most: 1 }],
]);
const moments: readonly (Haste | "end")[] = ["now", "seconds", "minutes", "end"];
const reserved = new Set(["and", "or", "not", "at", "is", "of", "between", "from", "to", "else"]);

/** Thrown inside the parser only, and caught by `parseExpression`. */
export class Refusal extends Error {
  readonly token: Token;
  readonly expected: string;
  readonly hint: string | undefined;
  constructor(token: Token, expected: string, hint?: string) {
    super(expected);
    this.token = token;
    this.expected = expected;
    this.hint = hint;
  }
}

/** Recursive descent over the tokens of one expression; see `parseExpression` for what binds how tightly. */
export class Parser {
  readonly #tokens: readonly Token[];
  #next = 0;
  #level = 0;

  constructor(tokens: readonly Token[]) {
    this.#tokens = tokens;
  }

  whole(): Node {
    const first = this.#peek();
    if (first.is === "name" && first.text === "else" && this.#peek(1).is === "end") {
      return { is: "number", value: 1, column: 1 };
    }
    const node = this.#or();
    const left = this.#peek();
    if (left.is !== "end") throw new Refusal(left, "an operator, or the end");
    return node;
  }

  #peek(ahead = 0): Token {
    const token = this.#tokens[Math.min(this.#next + ahead, this.#tokens.length - 1)];
    if (token === undefined) throw new Error("an expression has at least its end");
    return token;
  }

  #isWord(word: string, ahead = 0): boolean {
    const token = this.#peek(ahead);
    return token.is === "name" && token.text === word;
  }

  #isSign(sign: string): boolean {
    const token = this.#peek();
    return token.is === "sign" && token.text === sign;
  }

  #takeWord(word: string): boolean {
    if (!this.#isWord(word)) return false;
    this.#next++;
    return true;
  }

  #takeSign(sign: string): boolean {
    if (!this.#isSign(sign)) return false;
    this.#next++;
    return true;
  }

  #needSign(sign: string): void {
    if (!this.#takeSign(sign)) throw new Refusal(this.#peek(), `a ${sign}`);
  }

  #or(): Node {
    if (++this.#level > MOST_LEVELS) throw new Refusal(this.#peek(), `at most ${MOST_LEVELS} levels of brackets`);
    let left = this.#and();
    for (;;) {
      const { column } = this.#peek();
      if (!this.#takeWord("or")) break;
      left = { is: "or", left, right: this.#and(), column };
    }
    this.#level--;
    return left;
  }

  #and(): Node {
    let left = this.#not();
    for (;;) {
      const { column } = this.#peek();
      if (!this.#takeWord("and")) return left;
      left = { is: "and", left, right: this.#not(), column };
    }
  }

  #not(): Node {
    const nots: number[] = [];
    for (;;) {
      const { column } = this.#peek();
      if (!this.#takeWord("not")) break;
      nots.push(column);
      if (nots.length > MOST_LEVELS) throw new Refusal(this.#peek(), "fewer nots");
    }
    return nots.reduceRight<Node>((of, column) => ({ is: "not", of, column }), this.#at());
  }

  #at(): Node {
    let of = this.#comparison();
    for (;;) {
      const { column } = this.#peek();
      if (!this.#takeWord("at")) return of;
      const token = this.#peek();
      const when = moments.find((moment) => moment === token.text);
      if (when === undefined) throw new Refusal(token, moments.join(" | "), didYouMean(token.text, moments));
      this.#next++;
      of = { is: "at", when, of, column };
    }
  }

  #comparison(): Node {
    // "is pulled" about the part itself
    if (this.#isWord("is")) return this.#state(undefined);
    const left = this.#sum();
    const sign = this.#peek();
    if (sign.is === "sign" && comparisons.has(sign.text)) {
      this.#next++;
      const right = this.#rightOf(left);
      const after = this.#peek();
      if (after.is === "sign" && comparisons.has(after.text)) {
        throw new Refusal(after, "one comparison at a time", "Join two with and, or write: x between lo and hi.");
      }
      const operator = (sign.text === "=" ? "==" : sign.text) as Operator;
      return { is: "operation", operator, left, right, column: sign.column };
    }
    if (this.#isWord("is")) {
      if (left.is !== "name") throw new Refusal(this.#peek(), "a name before is");
      return this.#state(left.name);
    }
    const { column } = this.#peek();
    if (this.#takeWord("between")) {
      const lo = this.#sum();
      if (!this.#takeWord("and")) throw new Refusal(this.#peek(), "and, then the upper limit");
      return { is: "between-values", value: left, lo, hi: this.#sum(), column };
    }
    return left;
  }

  /** Right side of a comparison, where `of good` alone means the left side in the healthy machine. */
  #rightOf(left: Node): Node {
    const good = (column: number): Node => ({ is: "good", of: left, column });
    const first = this.#peek();
    const endsHere = (ahead: number): boolean => {
      const token = this.#peek(ahead);
      return token.is === "end" || token.text === ")" || ["and", "or", "at"].includes(token.text);
    };
    if (this.#isWord("good") && endsHere(1)) {
      this.#next++;
      return good(first.column);
    }
    const saved = this.#next;
    if (first.is === "number") {
      const share = this.#number();
      const column = this.#peek().column;
      if (this.#isWord("of") && this.#isWord("good", 1) && endsHere(2)) {
        this.#next += 2;
        return { is: "operation", operator: "*", left: share, right: good(column), column };
      }
      this.#next = saved;
    }
    return this.#sum();
  }

  #state(subject: string | undefined): Node {
    const { column } = this.#peek();
    this.#next++;
    const negated = this.#takeWord("not");
    const words: string[] = [];
    for (;;) {
      const token = this.#peek();
      const isWord =
        token.is === "quoted" ||
        token.is === "number" ||
        (token.is === "name" && !["and", "or", "at"].includes(token.text));
      if (!isWord) break;
      words.push(token.text);
      this.#next++;
    }
    if (words.length === 0) throw new Refusal(this.#peek(), "a word after is");
    const state: Node = {
      is: "state",
      ...(subject === undefined ? {} : { subject }),
      phrase: words.join(" "),
      column,
    };
    return negated ? { is: "not", of: state, column } : state;
  }

  #sum(): Node {
    let left = this.#product();
    for (;;) {
      const { column, text } = this.#peek();
      if (!this.#takeSign("+") && !this.#takeSign("-")) return left;
      left = { is: "operation", operator: text as Operator, left, right: this.#product(), column };
    }
  }

  #product(): Node {
    let left = this.#signed();
    for (;;) {
      const { column, text } = this.#peek();
      if (!this.#takeSign("*") && !this.#takeSign("/")) return left;
      left = { is: "operation", operator: text as Operator, left, right: this.#signed(), column };
    }
  }

  #signed(): Node {
    const { column } = this.#peek();
    if (!this.#takeSign("-")) return this.#of();
    if (this.#isSign("-")) throw new Refusal(this.#peek(), "one minus");
    return { is: "minus", of: this.#of(), column };
  }

  /** `8% of rated`: a share of what follows. */
  #of(): Node {
    const left = this.#primary();
    const { column } = this.#peek();
    if (!this.#takeWord("of")) return left;
    return { is: "operation", operator: "*", left, right: this.#primary(), column };
  }

  #primary(): Node {
    const token = this.#peek();
    const { column } = token;
    if (token.is === "number") return this.#number();
    if (this.#takeWord("OL")) return { is: "number", value: Infinity, column };
    if (this.#takeSign("(")) {
      const inner = this.#or();
      this.#needSign(")");
      return inner;
    }
    if (token.is !== "name" || (reserved.has(token.text) && token.text !== "good")) {
      throw new Refusal(token, "a name, a number or an opening bracket");
    }
    this.#next++;
    const follows = this.#peek();
    if (follows.is === "sign" && follows.text === "(") return this.#call(token);
    if (token.text === "volts" && this.#takeWord("from")) {
      const from = this.#pointName();
      if (!this.#takeWord("to")) throw new Refusal(this.#peek(), "to, then the other point");
      const to = this.#pointName();
      return { is: "between", from, to, ...(token.current === undefined ? {} : { current: token.current }), column };
    }
    if (token.text === "hottest" && follows.is === "name" && !reserved.has(follows.text)) {
      this.#next++;
      return { is: "hottest", group: follows.text, column };
    }
    if (token.text === "good" && (follows.is === "name" ? !reserved.has(follows.text) : follows.text === "(")) {
      return { is: "good", of: this.#primary(), column };
    }
    if (follows.is === "name" && !reserved.has(follows.text)) {
      throw new Refusal(follows, "an operator between two names", "A name of two words is written with a hyphen.");
    }
    return {
      is: "name",
      name: token.text,
      ...(token.current === undefined ? {} : { current: token.current }),
      column,
    };
  }

  #call(name: Token): Node {
    const { column } = name;
    this.#needSign("(");
    if (name.text === "cross" || name.text === "apart") {
      const a = this.#current();
      this.#needSign(";");
      const b = this.#current();
      this.#needSign(")");
      return { is: "pair", what: name.text, a, b, column };
    }
    const arity = functions.get(name.text);
    if (arity === undefined) {
      const known = [...functions.keys(), "cross", "apart"];
      throw new Refusal(name, "a function that is known", didYouMean(name.text, known));
    }
    const operands = [this.#or()];
    while (this.#takeSign(";")) operands.push(this.#or());
    const end = this.#peek();
    this.#needSign(")");
    if (operands.length < arity.least || operands.length > arity.most) {
      throw new Refusal(end, arity.least === arity.most ? `${arity.least} value` : `${arity.least} values or more`);
    }
    return { is: "call", name: name.text as FunctionName, operands, column };
  }

  /** A current, as `main.amps` or plainly `main`: the element's name. */
  #current(): string {
    const token = this.#peek();
    if (token.is !== "name") throw new Refusal(token, "a current, as main.amps");
    this.#next++;
    return token.text.replace(/\.amps$/, "");
  }

  /** A point or wire: `X3.1`, `N`, pin `11`, or in quotes `"X3.1 inside"`. */
  #pointName(): string {
    const token = this.#peek();
    if (token.is === "sign" || token.is === "end") throw new Refusal(token, "a point or wire");
    this.#next++;
    if (this.#takeWord("inside")) return `${token.text} inside`;
    return token.text;
  }

  /** The rest of a unit as `L/min`, written without blanks. */
  #perMinute(): string {
    const [slash, word] = [this.#peek(), this.#peek(1)];
    if (slash.text !== "/" || slash.spaced || word.text !== "min" || word.spaced) return "";
    this.#next += 2;
    return "/min";
  }

  /** A number with its unit, glued or after a blank: `0R3`, `8%`, `100 W`. */
  #number(): Node {
    const token = this.#peek();
    this.#next++;
    let text = token.text;
    const unit = this.#peek();
    if (unit.is === "name" && !reserved.has(unit.text)) {
      text += ` ${unit.text}`;
      this.#next++;
      text += this.#perMinute();
    } else if (this.#takeSign("%")) {
      text += "%";
    }
    const amount = parseAmount(text, {});
    if (!amount.ok || amount.value.spread !== "exact") {
      throw new Refusal(
        unit.is === "name" && text !== token.text ? unit : token,
        "a number with a unit that is known",
        amount.ok ? undefined : amount.issues[0]?.hint,
      );
    }
    return { is: "number", value: amount.value.nominal, column: token.column };
  }
}
