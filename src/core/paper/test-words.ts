import { uncertainty } from "../quantity/index.ts";
import type { SafetyLine, SafetyRules, SafetyTest } from "../safety/index.ts";

/** Each safety test for somebody who never heard of it. */
export const TEST_SAYS: Readonly<Record<SafetyTest, string>> = {
  look: "Looked over: cord, plug, covers, nothing bridged",
  earth: "Earth wire: metal parts are joined to earth",
  insulation: "Insulation: live parts are kept apart from metal",
  "protective current": "Current to earth while it runs",
  "touch current": "Current on what you can touch",
  function: "It does what it should",
};

/**
 * "passed" only where the test did; a test that was not made says so, and why.
 *
 * @param isStopped  another test failed: those behind it were not called for
 */
export function lineSays({ says, why }: SafetyLine, isStopped: boolean): string {
  switch (says) {
    case "pass":
      return "passed";
    case "fail":
      return "failed";
    case "too close to say":
      return why === "no spread given"
        ? "too close to say: how exact the instrument is was not noted"
        : why === "no limit for this cord"
          ? "too close to say: the limit for this cord is not known"
          : "too close to say";
    case "not measured":
      if (why === undefined) return isStopped ? "not called for: another test failed" : "not measured";
      return why === "cannot be made"
        ? "not measured: it cannot be made on this machine"
        : "not measured: does not count, a test before it failed";
  }
}

/** `0.08 Ω ±0.02 Ω`, `above 20 MΩ`; a dash where there is no figure. */
export function readingText({ test, reading }: SafetyLine): string {
  if (reading === undefined || test === "look" || test === "function") return "–";
  if ("above" in reading) return `above ${amountText(test, reading.above)}`;
  const reach = 2 * uncertainty(reading.value);
  const value = amountText(test, reading.value.value);
  return reach === 0 ? value : `${value} ±${amountText(test, reach)}`;
}

export function limitText({ test, limit }: SafetyLine): string {
  if (limit === undefined || test === "look" || test === "function") return "–";
  return `${test === "insulation" ? "at least" : "at most"} ${amountText(test, limit)}`;
}

/** In what a test is always told, so that two records can be held side by side: Ω, MΩ, mA. */
const TOLD_IN: Readonly<Record<SafetyTest, { readonly size: number; readonly symbol: string }>> = {
  look: { size: 1, symbol: "" },
  earth: { size: 1, symbol: " Ω" },
  insulation: { size: 1e6, symbol: " MΩ" },
  "protective current": { size: 1e-3, symbol: " mA" },
  "touch current": { size: 1e-3, symbol: " mA" },
  function: { size: 1, symbol: "" },
};

/** Three figures, never as a power of ten; small ones to a thousandth. */
function amountText(test: SafetyTest, value: number): string {
  const { size, symbol } = TOLD_IN[test];
  const told = value / size;
  const decimals = Math.abs(told) >= 100 ? 0 : Math.abs(told) >= 10 ? 1 : Math.abs(told) >= 1 ? 2 : 3;
  return `${Number(told.toFixed(decimals))}${symbol}`;
}

/** Whose rules, and how far their text was read. */
export function rulesNote({ says, edition, country, status }: SafetyRules, lines: readonly SafetyLine[]): string {
  const fromMemory = lines.some(({ row, cord }) => row?.source.startsWith("M") || cord?.source.startsWith("M"));
  const read =
    status === "read"
      ? ""
      : ` The text of its clauses was not before the author of this program: the limits are ${status}${fromMemory ? ", some of them from memory" : ""}.`;
  return `Tested by: ${says} (${edition}; ${country}).${read}`;
}
