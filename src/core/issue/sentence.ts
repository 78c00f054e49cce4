import type { Issue } from "./issue.ts";

/**
 * An issue as a person reads it: place, what was found, what was expected, what to do; the code last.
 *
 * @example sentence(issue) // 'dryer.yaml:12 parts.heater.P\n  found "2400 Q", expected watts, ohms ...'
 */
export function sentence(issue: Issue): string {
  const file = issue.file === undefined ? "" : issue.file + (issue.line === undefined ? "" : `:${issue.line}`);
  const line = issue.file === undefined && issue.line !== undefined ? `line ${issue.line}` : "";
  // Members of a list are counted as a person counts them: from one.
  const path = issue.at.map((key) => (typeof key === "number" ? key + 1 : key)).join(".");
  const place = [file || line, path].filter((piece) => piece !== "").join("  ");
  const lines = [
    `${place}${place === "" ? "" : "  "}[${issue.code}]`,
    `  found ${issue.found}; expected ${issue.expected}`,
  ];
  if (issue.hint !== undefined) lines.push(`  ${issue.hint}`);
  return lines.join("\n");
}
