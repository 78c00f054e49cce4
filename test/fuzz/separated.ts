import { analysePower, readPowerLog } from "../../src/core/powerlog/index.ts";
import { readRepairs, tabulate, writeRepairs } from "../../src/core/repairs/index.ts";
import { type Form, hold } from "./form.ts";

/** A short run in several ways of writing: a time and watts a row. */
const RUN: readonly (readonly [seconds: number, watts: number])[] = [
  ...Array.from({ length: 30 }, (_, at) => [10 * at, 0.5] as const),
  ...Array.from({ length: 30 }, (_, at) => [300 + 10 * at, at % 3 === 0 ? 180.5 : 92] as const),
  ...Array.from({ length: 40 }, (_, at) => [600 + 10 * at, at % 5 === 0 ? 2040.5 : 2190] as const),
  ...Array.from({ length: 30 }, (_, at) => [1000 + 10 * at, 24] as const),
];
const two = (value: number): string => String(value).padStart(2, "0");
const clock = (seconds: number): string =>
  `${two(10 + Math.floor(seconds / 3600))}:${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}`;
const logs = new Map([
  ["plain.csv", `t_s,p_W,U (V)\n${RUN.map(([time, watts]) => `${time},${watts},231`).join("\n")}\n`],
  [
    "comma.csv",
    `Zeit;Leistung [W]\n${RUN.map(([time, watts]) => `04.03.2026 ${clock(time)};${String(watts).replace(".", ",")}`).join("\n")}\n`,
  ],
  [
    "zone.csv",
    `time\tkW\r\n${RUN.map(([time, watts]) => `2026-03-04T${clock(time)}+01:00\t${watts / 1000}`).join("\r\n")}\r\n`,
  ],
  // So short that losing a row loses the log.
  ["short.csv", "time;W\n0;5\n10;2040,5\n"],
  ["shorter.csv", "0,5\n10,6\n"],
  ["clock.csv", `logger 7\n${RUN.map(([time, watts]) => `"${clock(time)}";"${watts}"`).join("\n")}`],
]);

const powerLog: Form = {
  name: "powerlog",
  files: logs,
  weight: 8,
  judge: (text, file) => {
    const log = readPowerLog(text, file);
    if (!log.ok) return { refused: log.issues };
    const analysis = analysePower(log.value);
    let last = Number.NEGATIVE_INFINITY;
    for (const { load, from, to, watts, onSeconds, unknownSeconds } of analysis.stretches) {
      hold(from <= to && from >= last, `a stretch from ${from} to ${to} after one that began at ${last}`);
      hold(onSeconds + unknownSeconds <= (to - from) * (1 + 1e-9) + 1e-6, `${onSeconds} s on in ${to - from} s`);
      hold(Number.isNaN(watts) === (load === "unknown"), `${watts} W of ${load}`);
      last = from;
    }
    hold(
      analysis.unknownSeconds <= analysis.seconds + 1e-6,
      `${analysis.unknownSeconds} s unknown of ${analysis.seconds}`,
    );
    const { stretches, ...told } = analysis;
    return { told: { ...told, stretches: stretches.filter(({ load }) => load !== "unknown") } };
  },
};

const REPAIRS = `id,data_provider,country,partner_product_category,product_category,product_category_id,brand,year_of_manufacture,product_age,repair_status,repair_barrier_if_end_of_life,group_identifier,event_date,problem
ferrybank-1,Ferrybank workshop,DEU,tumble dryer,Large home electrical,17,Unknown,2016,9.5,Fixed,,,2026-03-04,"stays cold, ""hums"""
ferrybank_2,Ferrybank workshop,DEU,kettle,Kettle,14,Unknown,????,,End of life,No way to open the product,north,2026-03-05,"leaks
at the base"
ferrybank-3,Ferrybank workshop,GBR,iron,Iron,40,,2011,,Repairable,,,2026-03-06,
`;

const repairs: Form = {
  name: "repairs",
  files: new Map([["repairs.csv", REPAIRS]]),
  weight: 8,
  judge: (text, file) => {
    const read = readRepairs(text, file);
    if (!read.ok) return { refused: read.issues };
    const again = readRepairs(writeRepairs(read.value));
    hold(
      again.ok && JSON.stringify(again.value) === JSON.stringify(read.value),
      "written and read again it is another",
    );
    const [all] = tabulate(read.value);
    hold(all !== undefined && all.count === read.value.length, "repairs that are not counted");
    return { told: read.value };
  },
};

/** Separated text, of loggers and of other shops. */
export const separated: readonly Form[] = [powerLog, repairs];
