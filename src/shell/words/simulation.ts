import type {
  Interval,
  Played,
  SheetSummary,
  Strategy,
  StrategySummary,
  Summary,
  WrongSheet,
} from "../../core/trial/index.ts";

/** How each way of working is called. */
const STRATEGY_SAYS: Readonly<Record<Strategy, string>> = {
  plan: "the plan",
  swap: "swapping",
  test: "testing in order",
};

const WRONG_SAYS: Readonly<Record<WrongSheet, string>> = {
  rates: "how often each part fails is off by three, up or down",
  variant: "one slot is answered wrong",
  "missing-part": "the part at fault is not on it",
};

/** What a simulation came to, as tables: one column a strategy, every figure with its interval of 95 %. */
export function simulationInWords(summary: Summary, currency: string, wrong?: WrongSheet): string[] {
  const lines = [
    ...sheetInWords(summary.right, currency),
    "",
    `The true fault had odds under one in a million, by honest answers alone, in ${summary.excluded} of ${jobsOf(summary.right)} jobs of the plan; its least odds were ${summary.leastTrue.toExponential(1)}.`,
  ];
  if (summary.wrong === undefined || wrong === undefined) return lines;
  return [
    "With the right sheet",
    ...lines,
    "",
    `With a wrong sheet: ${WRONG_SAYS[wrong]}`,
    ...sheetInWords(summary.wrong, currency),
    "",
    ...summary.wrong.dearer.map(
      ({ strategy, share }) => `${STRATEGY_SAYS[strategy]}: ${percent(share)} dearer than with the right sheet`,
    ),
  ];
}

function jobsOf({ strategies }: SheetSummary): number {
  return strategies.find(({ strategy }) => strategy === "plan")?.jobs ?? 0;
}

function sheetInWords({ strategies, saved, notOnThisSheet, knownButLeft }: SheetSummary, currency: string): string[] {
  const row = (says: string, of: (one: StrategySummary) => string): string =>
    `${says.padEnd(LABEL)}${strategies.map((one) => of(one).padStart(COLUMN)).join("")}`;
  const lines = [
    row("a job", ({ strategy }) => STRATEGY_SAYS[strategy]),
    row(`cost, ${currency}`, ({ money }) => number(money, 0)),
    row("minutes", ({ minutes }) => number(minutes, 0)),
    row("parts fitted", ({ fitted }) => number(fitted, 2)),
    row("good parts among them", ({ wrong }) => percent(wrong)),
    row("jobs that replaced a good part", ({ wrongJobs }) => percent(wrongJobs)),
    row("good connections remade", ({ remade }) => number(remade, 2)),
    row("unsolved", ({ unsolved }) => percent(unsolved)),
    row("came back", ({ cameBack }) => percent(cameBack)),
    row("second visits", ({ secondVisits }) => number(secondVisits, 2)),
    row("live readings, nothing opened", ({ closed }) => number(closed, 2)),
    row("live readings, clipped", ({ clipped }) => number(clipped, 2)),
    row("live readings, by hand", ({ handheld }) => number(handheld, 2)),
    "",
    ...saved.map(({ against, share }) => `The plan costs ${percent(share)} less than ${STRATEGY_SAYS[against]}.`),
  ];
  if (strategies.some(({ strategy }) => strategy === "plan")) {
    lines.push(`"Something I do not know about this machine" stood at ${percent(notOnThisSheet)} at the end of a job.`);
    lines.push(
      `Of the jobs the plan gave up, what was wrong was known in ${percent(knownButLeft)}: not worth mending.`,
    );
  }
  return lines;
}

const LABEL = 32;
const COLUMN = 22;

/** The jobs of the plan that came dearest against the best of the others, or against nothing where it worked alone. */
export function dearestInWords(all: readonly Played[], count: number, currency: string): string[] {
  const plan = all.filter(({ strategy, sheet }) => strategy === "plan" && sheet === "right");
  return [...plan]
    .sort((a, b) => b.bill.money - a.bill.money || a.machine - b.machine)
    .slice(0, count)
    .map(({ machine, fault, bill, did }) => {
      const acts = did.map(({ remedy, right }) => `${remedy}${right ? "" : " (for nothing)"}`);
      const ends = [bill.mended ? (bill.cameBack ? "came back" : "mended") : "given up"];
      return `${machine}: ${fault}; ${[...acts, ...ends].join(", ")}; ${bill.money.toFixed(0)} ${currency}, ${bill.minutes.toFixed(0)} minutes`;
    });
}

/** "151 (143 to 159)" */
function number({ value, lo, hi }: Interval, digits: number): string {
  if (Number.isNaN(lo)) return value.toFixed(digits);
  return `${value.toFixed(digits)} (${lo.toFixed(digits)} to ${hi.toFixed(digits)})`;
}

/** "2.1 % (1.4 to 3.0)" */
function percent({ value, lo, hi }: Interval): string {
  if (Number.isNaN(value)) return "none";
  const share = (x: number): string => (100 * x).toFixed(1);
  return Number.isNaN(lo) ? `${share(value)} %` : `${share(value)} % (${share(lo)} to ${share(hi)})`;
}
