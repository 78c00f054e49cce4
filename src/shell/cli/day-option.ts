import { Option } from "commander";
import { isDay } from "../../core/day/index.ts";
import { Refused } from "./outcome.ts";

/** `--date 2026-03-04`; today by this computer's clock where it is not told. */
export function dayOption(description: string): Option {
  return new Option("--date <day>", description)
    .default(new Date().toISOString().slice(0, 10), "today")
    .argParser((text: string): string => {
      if (isDay(text)) return text;
      const issue = { code: "option.day", severity: "error", at: ["--date"], found: `"${text}"` } as const;
      throw new Refused([{ ...issue, expected: "a day: 2026-03-04" }]);
    });
}
