/** "a, b or c". */
export function alternatives(names: readonly string[]): string {
  return joined(names, "or");
}

/** "a, b and c". */
export function together(names: readonly string[]): string {
  return joined(names, "and");
}

function joined(names: readonly string[], word: "and" | "or"): string {
  const last = names.at(-1) ?? "";
  return names.length < 2 ? last : `${names.slice(0, -1).join(", ")} ${word} ${last}`;
}
