/** Characters of a line in the terminal. */
export const width = 96;

/** Breaks text into lines of at most `width` characters, the first line led by `first`, the others by `rest`. */
export function wrap(text: string, width: number, first = "", rest = first): string[] {
  const lines: string[] = [];
  let line = first;
  let empty = true;
  for (const word of text.split(/\s+/).filter((piece) => piece !== "")) {
    if (!empty && line.length + 1 + word.length > width) {
      lines.push(line);
      line = rest;
      empty = true;
    }
    line += empty ? word : ` ${word}`;
    empty = false;
  }
  lines.push(line);
  return lines;
}
