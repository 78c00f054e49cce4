import type { Account } from "../../core/practice/index.ts";
import type { Machine } from "../../core/sheet/index.ts";
import type { DrawnMachine } from "../../core/trial/index.ts";
import { eventInBrief } from "./job-event.ts";
import { wrap } from "./wrap.ts";

/** Each of two columns. */
const column = 47;

/** One history as lines: minutes so far, then what was done. */
export function historyInWords(account: Account, machine: Machine, width: number): string[] {
  return historyLines(account, machine).flatMap(({ minutes, says }) =>
    wrap(says, width, `${String(minutes).padStart(3)}' `, "     "),
  );
}

/** One history as data: minutes so far, and what was done. */
export function historyLines({ history, along }: Account, machine: Machine) {
  // What a follower of the plan notes as impossible for itself is no act.
  return history.events.flatMap((event, n) =>
    event.kind === "cannot" ? [] : [{ minutes: Math.round(along[n].minutes), says: eventInBrief(event, machine) }],
  );
}

/** Two histories of the same machine side by side, and what each came to. No verdict: the figures stand for themselves. */
export function besideInWords(yours: Account, other: Account, machine: Machine, currency: string): string[] {
  const left = historyInWords(yours, machine, column);
  const right = historyInWords(other, machine, column);
  const theirs = sumsOf(other, currency);
  return [
    beside("Yours", "The plan's"),
    beside("─".repeat(column), "─".repeat(column)),
    ...Array.from({ length: Math.max(left.length, right.length) }, (_, n) => beside(left[n] ?? "", right[n] ?? "")),
    "",
    `${"".padEnd(34)}${"yours".padStart(20)}${"the plan's".padStart(22)}`,
    ...sumsOf(yours, currency).map(
      ([name, value], n) => `${name.padEnd(34)}${value.padStart(20)}${theirs[n][1].padStart(22)}`,
    ),
    "",
    "Money: work at the shop's rate, parts, second visits, what coming back costs; where it was not mended,",
    "what is lost with the machine.",
  ].map((line) => line.trimEnd());
}

function beside(left: string, right: string): string {
  return `${left.padEnd(column)} │ ${right}`;
}

/** What an account came to, as names and values. */
export function sumsOf({ bill, history }: Account, currency: string): readonly (readonly [string, string])[] {
  const money = (amount: number): string => `${amount.toFixed(2)} ${currency}`;
  return [
    ["ended", history.ended === "mended" ? "closed as mended" : "stopped, not mended"],
    ["minutes, covers back on", bill.minutes.toFixed(0)],
    ["parts", money(bill.parts)],
    ["new parts, of them for nothing", `${bill.fitted}, ${bill.wrong}`],
    ["second visits", String(bill.secondVisits)],
    ["comes back within the guarantee", history.ended === "mended" ? (bill.cameBack ? "yes" : "no") : "-"],
    ["live readings: covers on, clipped", `${bill.live.closed}, ${bill.live.clipped}`],
    ["money in all", money(bill.money)],
  ];
}

/** What was wrong with the machine, told at the end. */
export function hiddenInWords({ faults, failsOn }: DrawnMachine): string[] {
  const comes = failsOn < 1 ? `, there about ${Math.round(failsOn * 10)} times in 10` : "";
  const [first, ...more] = faults.map(({ says }) => says);
  return [`What was wrong: ${first}${comes}.`, ...more.map((says) => `And: ${says}.`)];
}
