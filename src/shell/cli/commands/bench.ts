import type { Command } from "commander";
import { benchTestOf, ROOM_CELSIUS, ratingsOf } from "../../../core/bench/index.ts";
import { instantiate } from "../../../core/part/index.ts";
import { benchInWords } from "../../words/bench.ts";
import { kindNamed, parseAnswers, shippedLibrary } from "../library.ts";
import { need, print, printJson, Refused } from "../outcome.ts";

/** A loose part on the bench: its own test in order, with the limits that its ratings and its temperature give. */
export function addBench(program: Command): void {
  program
    .command("bench <KIND> [RATINGS...]")
    .description("a loose part's own test, step by step, with its limits")
    .option("--celsius <n>", "how warm the part is", celsiusOf, ROOM_CELSIUS)
    .option("--json", "for programs: docs/json.md")
    .addHelpText(
      "after",
      `
Example:
  faultwright bench relay poles=2 "coil=360R ±10%" U=12V --celsius 22
Ratings that are not named are those usual for the kind. Readings are written down and judged in the app (./start app).`,
    )
    .action((name: string, ratings: readonly string[], { celsius, json }: { celsius: number; json?: true }) => {
      const kind = need(kindNamed(name, shippedLibrary()));
      const told = [...need(parseAnswers(ratings, "rating=value", 'Write for example "coil=360R ±10%".'))].map(
        ([rating, text]) => [rating, { text, line: 1 }] as const,
      );
      const instance = need(instantiate(kind, new Map(told), { at: ["ratings"] }));
      const test = benchTestOf(instance, celsius);
      if (json === true) printJson({ format: "faultwright-bench/1", kind: kind.id, ...test });
      else print(benchInWords(test, ratingsOf(test, instance)));
    });
}

function celsiusOf(text: string): number {
  const celsius = Number(text);
  if (text.trim() !== "" && celsius > -40 && celsius < 200) return celsius;
  const expected = "the part's temperature in °C, -40 to 200";
  throw new Refused([{ code: "bench.celsius", severity: "error", at: ["--celsius"], found: `"${text}"`, expected }]);
}
