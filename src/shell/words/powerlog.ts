import type { AgainstSheet, PowerAnalysis, PowerLog, StepSeen, Stretch } from "../../core/powerlog/index.ts";
import { together } from "./list.ts";
import { width, wrap } from "./wrap.ts";

/** Stretches told one by one; of a longer log the longest are. */
const MOST_TOLD = 40;
/** Shorter stretches of a small load are not worth a line: seconds. */
const LEAST_SECONDS = 20;

/** What ran, by its watts. */
export const LOAD_WORDS: Readonly<Record<Stretch["load"], string>> = {
  "standing by": "stands by, or off",
  "small load": "small load (valve, drain pump)",
  "motor or pump": "motor or pump",
  heater: "heats",
  unknown: "nothing logged: not known",
};

/** What a log of the power shows: how far it can be trusted, then stretch by stretch. */
export function powerLogInWords(log: PowerLog, analysis: PowerAnalysis): string[] {
  const { seconds, everySeconds, kilowattHours, volts } = analysis;
  const others = log.columns.filter((name) => name !== log.column);
  const also = others.length === 0 ? "" : ` (also there: ${others.join(", ")}; --column takes it)`;
  const mains = volts === undefined ? "" : `, mains ${volts.toFixed(0)} V`;
  return [
    ...paragraph(
      `${durationInWords(seconds)}, a sample every ${durationInWords(everySeconds)}; power from ${log.column}${also}. ${kilowattHours.toFixed(2)} kWh${mains}.`,
    ),
    ...trustInWords(analysis).flatMap(paragraph),
    "",
    "  from       for         what",
    ...told(analysis.stretches).map(stretchLine),
    ...summary(analysis),
  ];
}

/** How far a log can be trusted: where it begins and ends, its holes, rows that count for nothing. */
export function trustInWords(analysis: PowerAnalysis): string[] {
  const { beginsAtRest, endsAtRest, gaps, unknownSeconds, doubled, backward, glitches } = analysis;
  const ends = [
    ...(beginsAtRest ? [] : ["It begins inside a run: what was before is not known."]),
    ...(endsAtRest ? [] : ["It ends inside a run: what came after is not known."]),
  ];
  const holes =
    gaps.length === 0
      ? []
      : [`${count(gaps.length, "hole")}, ${durationInWords(unknownSeconds)} in all: not known, not off.`];
  const rows = [
    ...(doubled === 0 ? [] : [`${count(doubled, "row")} at a time that was there already (their mean was taken)`]),
    ...(backward === 0 ? [] : [`${count(backward, "row")} whose clock had gone back (left out)`]),
    ...(glitches.length === 0
      ? []
      : [`${count(glitches.length, "lone sample")} that nothing around bears out (put aside)`]),
  ];
  return [...ends, ...holes, ...(rows.length === 0 ? [] : [`${together(rows)}.`])];
}

function told(stretches: readonly Stretch[]): readonly Stretch[] {
  const worth = stretches.filter(({ load, from, to }) => load !== "small load" || to - from >= LEAST_SECONDS);
  if (worth.length <= MOST_TOLD) return worth;
  const longest = new Set([...worth].sort((a, b) => b.onSeconds - a.onSeconds).slice(0, MOST_TOLD));
  return worth.filter((stretch) => longest.has(stretch));
}

function stretchLine(stretch: Stretch): string {
  const { load, from, to, watts, onSeconds, unknownSeconds, surgeWatts, heating } = stretch;
  const at = `  ${clockInWords(from).padEnd(9)}  ${durationInWords(to - from).padEnd(10)}  `;
  const power = load === "unknown" || load === "standing by" ? "" : `, ${watts.toFixed(0)} W`;
  const share = onSeconds / Math.max(1, to - from - unknownSeconds);
  const beside = heating?.beside.watts ?? 0;
  const with_ =
    heating === undefined || beside < 1
      ? ""
      : `: heater ${heating.heaterWatts.toFixed(0)} W, beside it ${beside.toFixed(0)} W${heating.beside.share < 1 ? ` about ${tenths(heating.beside.share)} of the time` : ""}`;
  const drops =
    (heating?.drops ?? 0) === 0 ? "" : `; drops out ${count(heating?.drops ?? 0, "time")} for a few seconds`;
  const turns = load === "motor or pump" && share < 0.9 ? `, on about ${tenths(share)} of the time` : "";
  const surge = surgeWatts === undefined ? "" : `, starts with ${surgeWatts.toFixed(0)} W`;
  const hole = unknownSeconds > 0 && load !== "unknown" ? `, ${durationInWords(unknownSeconds)} of it not known` : "";
  return `${at}${LOAD_WORDS[load]}${power}${with_}${turns}${surge}${drops}${hole}`;
}

function summary({ strengths, rhythm, stretches }: PowerAnalysis): string[] {
  const lines: string[] = [];
  const left = stretches.length - told(stretches).length;
  if (left > 0) lines.push(`  and ${count(left, "shorter stretch", "shorter stretches")} (all of them with --json)`);
  const heats = strengths.map(
    ({ watts, seconds, times }) => `${watts.toFixed(0)} W for ${durationInWords(seconds)} (${count(times, "time")})`,
  );
  lines.push("", ...paragraph(heats.length === 0 ? "No heating is seen." : `Heats at ${together(heats)}.`));
  if (rhythm !== undefined) {
    const what = rhythm.load === "heater" ? "The heater" : "The motor";
    lines.push(
      ...paragraph(
        `${what} comes and goes by the clock: on for ${durationInWords(rhythm.onSeconds)} every ${durationInWords(rhythm.periodSeconds)} (${count(rhythm.times, "time")}).`,
      ),
    );
  }
  lines.push(...paragraph("What runs is told by its watts alone (limits from memory): a log names no part."));
  return lines;
}

/** What a log says of a step of the programme. */
export const STEP_WORDS: Readonly<Record<StepSeen["says"], string>> = {
  "as the sheet says": "as the sheet says",
  "too little": "TOO LITTLE",
  "too much": "TOO MUCH",
  "another power": "something of its kind, at another power",
  "not seen": "not seen",
  "not told apart": "stands by: a log cannot tell it",
};

const HIDES: Readonly<Record<AgainstSheet["hides"][number], string>> = {
  "begins inside a run": "the log begins inside a run",
  "ends inside a run": "it ends inside a run",
  holes: "it has holes",
};

/** Step by step, what the log says of the sheet's programme; then what must not be read into it. */
export function againstSheetInWords(against: AgainstSheet, volts: number | undefined): string[] {
  const longest = Math.max(...against.steps.map(({ step }) => step.length));
  const lines = against.steps.map(({ step, reach, says, seen, ofSheet, isOutOfOrder }) => {
    const due = `${reach.lo.toFixed(0)} to ${reach.hi.toFixed(0)} W`;
    const when = seen?.from === undefined ? ", now and then" : ` at ${clockInWords(seen.from)}`;
    const was = seen === undefined ? "" : `: ${seen.watts.toFixed(0)} W${when}`;
    const share = ofSheet === undefined ? "" : `, ${Math.round(ofSheet * 100)} of 100 parts of what the sheet says`;
    const order = isOutOfOrder ? "; but not in the order of the programme" : "";
    return `  ${step.padEnd(longest)}  ${due.padEnd(15)}  ${STEP_WORDS[says]}${was}${share}${order}`;
  });
  const weak = against.steps.some(({ says }) => says === "too little");
  const unseen = against.steps.some(({ says }) => says === "not seen");
  const hides = against.hides.map((why) => HIDES[why]);
  return [
    ...lines,
    "",
    ...(unseen ? paragraph(unseenInWords(hides)) : []),
    ...(weak
      ? paragraph(
          "Too little heat: one of two stages or loops may be missing, or the sheet's rating is not this machine's. Read its plate, then measure.",
        )
      : []),
    ...paragraph(
      volts === undefined
        ? "Mains volts were not logged: anything in the ±10 % of the public supply is allowed (a heater's watts go by their square)."
        : "Watts are held against the logged volts.",
    ),
    ...paragraph(
      "Judged by power and order, not by how long a step took. It proves what ran, not that it is safe: the tests after a repair come first.",
    ),
  ];
}

function unseenInWords(hides: readonly string[]): string {
  const may = hides.length === 0 ? "" : ` It may have run all the same: ${together(hides)}.`;
  return `"Not seen" says that it did not run while the log was taken, not that a part is open: the programme may have had no need of it, or nothing asked for it.${may}`;
}

/** Hours, minutes and seconds since the first row. */
export function clockInWords(seconds: number): string {
  const whole = Math.round(seconds);
  const two = (value: number): string => String(value).padStart(2, "0");
  return `${Math.floor(whole / 3600)}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}`;
}

/** "45 s", "12 min", "2 h 5 min" */
export function durationInWords(seconds: number): string {
  const whole = Math.round(seconds);
  if (whole < 1) return `${Number(seconds.toFixed(1))} s`;
  if (whole < 120) return `${whole} s`;
  const minutes = Math.round(seconds / 60);
  return minutes < 120 ? `${minutes} min` : `${Math.floor(minutes / 60)} h ${minutes % 60} min`;
}

function tenths(share: number): string {
  return `${Math.round(share * 10)} tenths`;
}

function count(number: number, one: string, many = `${one}s`): string {
  return `${number} ${number === 1 ? one : many}`;
}

function paragraph(text: string): string[] {
  return wrap(text, width);
}
