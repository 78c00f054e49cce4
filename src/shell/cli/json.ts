import { accept, type Checked, refuse } from "../../core/issue/index.ts";

/** Parsed JSON, or where it stops being JSON. */
export function parseJson(text: string, file: string): Checked<unknown> {
  try {
    return accept(JSON.parse(text));
  } catch (cause) {
    const message = cause instanceof Error ? cause.message : String(cause);
    const position = /position (\d+)/.exec(message)?.[1];
    const line = position === undefined ? {} : { line: text.slice(0, Number(position)).split("\n").length };
    const issue = {
      code: "json.syntax",
      severity: "error" as const,
      file,
      ...line,
      at: [],
      found: message,
      expected: "JSON",
    };
    return refuse({ ...issue, hint: "Check brackets, commas and quotes at that place." });
  }
}
