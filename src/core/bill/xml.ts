/** An element of an XML document: its name, what is in it, its attributes. */
export interface Element {
  readonly name: string;
  readonly inside: string | readonly Element[];
  readonly attributes?: Readonly<Record<string, string>>;
}

/** An element of a text, or of others; none where there is no text or nothing inside. */
export function element(
  name: string,
  inside: string | undefined | readonly (Element | undefined)[],
  attributes?: Readonly<Record<string, string>>,
): Element | undefined {
  const kept = typeof inside === "object" ? inside.filter((child) => child !== undefined) : inside;
  if (kept === undefined || kept.length === 0) return undefined;
  return { name, inside: kept, ...(attributes === undefined ? {} : { attributes }) };
}

/** A whole document, two blanks a level. */
export function xmlText(root: Element): string {
  return `<?xml version="1.0" encoding="UTF-8"?>\n${written(root, "")}`;
}

function written({ name, inside, attributes = {} }: Element, indent: string): string {
  const head = Object.entries(attributes).reduce((text, [key, value]) => `${text} ${key}="${escaped(value)}"`, name);
  if (typeof inside === "string") return `${indent}<${head}>${escaped(inside)}</${name}>\n`;
  return `${indent}<${head}>\n${inside.map((child) => written(child, `${indent}  `)).join("")}${indent}</${name}>\n`;
}

/** Signs that XML 1.0 cannot hold are left out. */
function escaped(text: string): string {
  return text
    .replace(/[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu, "")
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;");
}
