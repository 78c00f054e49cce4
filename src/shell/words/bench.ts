import type { BenchTest } from "../../core/bench/index.ts";
import type { Rated } from "../../core/quantity/index.ts";
import { limitsInWords } from "./limits.ts";
import { ratingInWords, sourceInWords } from "./rating.ts";
import { width, wrap } from "./wrap.ts";

const ACTS = { measure: "Measure", energise: "Energise", look: "Look at", "turn by hand": "Turn by hand" };
const DEAD =
  "Out of its machine and connected to nothing, unless a step says so; capacitors discharged and measured. Local rules and licensed practice come first.";
const LIVE =
  "Live work: an RCD and a two-pole switch before it, a covered fixture, the off switch in reach; only who is competent and authorised. Off before anything is touched.";
const INSULATION =
  "500 V hurts and kills electronics: the bare part only, nobody touches it, discharged after the reading.";

/** A loose part's test to read from: each step with its caution, what a good part shows, and where that stands. */
export function benchInWords(test: BenchTest, ratings: ReadonlyMap<string, Rated>): string[] {
  const warmth = test.steps.some(({ reading }) => reading?.perKelvin !== undefined)
    ? [`Limits for a part at ${test.celsius} °C.`]
    : [];
  const pace = test.duty?.atMostPerMinute;
  const told = [...ratings].map(([name, rated]) => `${name} ${ratingInWords(rated)}`).join(" · ");
  return [
    test.says,
    ...(told === "" ? [] : wrap(told, width)),
    "",
    ...[DEAD, ...test.hazards, ...(pace === undefined ? [] : [`at most ${pace} operations a minute`])].flatMap(caution),
    ...warmth,
    ...test.steps.flatMap((step) => {
      const { reading, source, repeat } = step;
      const good = reading === undefined ? step.good : limitsInWords(reading.quantity, reading.limits);
      const stands = source === undefined ? "" : ` (${sourceInWords(source)})`;
      return [
        "",
        ...wrap(`${step.index + 1}. ${ACTS[step.do]}: ${step.says}`, width),
        ...(step.live ? caution(LIVE) : []),
        ...(reading?.quantity === "insulation ohms" ? caution(INSULATION) : []),
        ...wrap(`good is: ${good}${stands}`, width - 3).map((line) => `   ${line}`),
        ...(repeat === undefined ? [] : [`   ${repeat} operations, each counted`]),
      ];
    }),
  ];
}

function caution(text: string): string[] {
  return wrap(text, width - 4).map((line, n) => `${n === 0 ? "  ! " : "    "}${line}`);
}
