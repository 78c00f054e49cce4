/** Octets of a line, its break left out. @source RFC 5545, 3.1; RFC 6350, 3.2 */
const MOST_OCTETS = 75;

/**
 * One property as calendar and contact files write it: name, colon, value, folded so that no line is longer than 75 octets and no
 * letter is cut in two.
 *
 * @source RFC 5545, 3.1 and RFC 6350, 3.2: a fold is CR LF and one blank
 */
export function contentLine(name: string, value: string): string {
  const lines: string[] = [];
  let line = "";
  let octets = 0;
  for (const letter of `${name}:${value}`) {
    const size = octetsOf(letter);
    if (octets + size > MOST_OCTETS) {
      lines.push(line);
      line = " ";
      octets = 1;
    }
    line += letter;
    octets += size;
  }
  return `${[...lines, line].join("\r\n")}\r\n`;
}

/**
 * Words as a value of text, or as one part of a value made of parts. Control letters, which no value may hold, are left out.
 *
 * @source RFC 5545, 3.3.11; RFC 6350, 3.4
 */
export function textValue(words: string): string {
  return wholeValue(words).replaceAll(";", "\\;");
}

/**
 * Words as the whole value of a contact's property. There a semicolon parts nothing and may stand bare; readers differ on one
 * that does not.
 *
 * @source RFC 6350, 3.4
 */
export function wholeValue(words: string): string {
  return clean(words)
    .replaceAll("\\", "\\\\")
    .replaceAll(",", "\\,")
    .replaceAll(/\r\n|\r|\n/g, "\\n");
}

/**
 * Words as a value of a parameter, in quotes. Quotes themselves cannot stand there.
 *
 * @source RFC 5545, 3.2
 */
export function parameterValue(words: string): string {
  return `"${clean(words)
    .replaceAll('"', "'")
    .replaceAll(/[\r\n]+/g, " ")}"`;
}

function clean(words: string): string {
  // A lone half of a pair is no letter in UTF-8.
  return [...words].filter((letter) => /[\t\r\n]/.test(letter) || !/[\p{Cc}\p{Cs}]/u.test(letter)).join("");
}

/** Octets of a letter in UTF-8. */
function octetsOf(letter: string): number {
  const point = letter.codePointAt(0) ?? 0;
  return point < 0x80 ? 1 : point < 0x800 ? 2 : point < 0x10000 ? 3 : 4;
}
