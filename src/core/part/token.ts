/** One piece of an expression. `column` is 1-based. */
export interface Token {
  readonly is: "number" | "name" | "quoted" | "sign" | "end";
  /** As written; of a quoted phrase, without its quotes. */
  readonly text: string;
  readonly column: number;
  /** Suffix `~` or `=` of a name (`coil.volts~`). */
  readonly current?: "~" | "=";
  /** White space stood before it. */
  readonly spaced: boolean;
}

const patterns = {
  blank: /\s+/y,
  quoted: /"([^"]*)"|'([^']*)'/y,
  // digits first: 3k3, 0R1, 10kΩ, .5, 1e-3, 8%; a unit after a blank is a token of its own
  number: /(\d+(?:\.\d+)?|\.\d+)(e[+-]?\d+(?![\w]))?[A-Za-zµμΩΩ°]*\d*[ΩΩ]?%?/y,
  // hyphens and dots belong to a name, not to its end
  name: /[A-Za-zµΩΩ°_][\w°ΩΩµ]*(?:[-.][\w°ΩΩµ]+)*/y,
  sign: /<=|>=|==|!=|[≤≥≠]|[-+*/<>();=%]/y,
};
const plainSign: ReadonlyMap<string, string> = new Map([
  ["≤", "<="],
  ["≥", ">="],
  ["≠", "!="],
]);

/** The pieces of an expression, closed by an `end`; or the column of the first character that belongs to none. */
export function tokensOf(text: string): { readonly tokens: readonly Token[] } | { readonly badColumn: number } {
  const tokens: Token[] = [];
  let at = 0;
  let spaced = true;
  const take = (pattern: RegExp): RegExpExecArray | null => {
    pattern.lastIndex = at;
    const match = pattern.exec(text);
    if (match !== null) at = pattern.lastIndex;
    return match;
  };
  while (at < text.length) {
    const column = at + 1;
    if (take(patterns.blank)) {
      spaced = true;
      continue;
    }
    const quoted = take(patterns.quoted);
    if (quoted) {
      tokens.push({ is: "quoted", text: quoted[1] ?? quoted[2] ?? "", column, spaced });
    } else {
      const number = take(patterns.number);
      const name = number ? null : take(patterns.name);
      if (number) {
        tokens.push({ is: "number", text: number[0], column, spaced });
      } else if (name) {
        const current = currentSuffix(text, at, name[0]);
        if (current !== undefined) at++;
        tokens.push({ is: "name", text: name[0], column, spaced, ...(current === undefined ? {} : { current }) });
      } else {
        const sign = take(patterns.sign);
        if (!sign) return { badColumn: column };
        tokens.push({ is: "sign", text: plainSign.get(sign[0]) ?? sign[0], column, spaced });
      }
    }
    spaced = false;
  }
  tokens.push({ is: "end", text: "", column: text.length + 1, spaced: true });
  return { tokens };
}

/** `coil.volts=` asks for DC where nothing that could be compared follows at once: `coil.volts=5` does not. */
function currentSuffix(text: string, at: number, name: string): "~" | "=" | undefined {
  if (text[at] === "~") return "~";
  const isElectric = name === "volts" || /\.(volts|amps)$/.test(name);
  return text[at] === "=" && isElectric && /^(\s|[;)]|$)/.test(text.slice(at + 1)) ? "=" : undefined;
}
