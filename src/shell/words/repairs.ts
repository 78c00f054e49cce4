import type { CategoryRow } from "../../core/repairs/index.ts";
import { width, wrap } from "./wrap.ts";

/** Fewer repairs of known outcome than this are no base for a share. */
const LEAST = 10;

/** What became of the repairs of a file, category by category. */
export function repairsInWords([all, ...categories]: readonly CategoryRow[]): string[] {
  if (all === undefined || all.count === 0) return ["No repairs."];
  const longest = Math.max(...[all, ...categories].map(({ category }) => category.length));
  const head = ["", "repairs", "fixed", "could be", "given up", "age", "most often given up for"];
  const barrier = (row: CategoryRow): string => {
    const [most] = [...row.barriers].sort(([, a], [, b]) => b - a);
    return most === undefined || row.barred < LEAST
      ? ""
      : `${most[0].toLowerCase()} (${percent(most[1])} of ${row.barred})`;
  };
  const line = ([name = "", ...cells]: readonly string[]): string =>
    `  ${name.padEnd(longest)}  ${cells
      .slice(0, 5)
      .map((cell) => cell.padStart(8))
      .join("  ")}  ${cells[5] ?? ""}`.trimEnd();
  const share = (row: CategoryRow, of: number): string => (row.known < LEAST ? "-" : percent(of));
  const rows = [all, ...categories].map((row) =>
    line([
      row.category,
      String(row.count),
      share(row, row.fixed),
      share(row, row.repairable),
      share(row, row.endOfLife),
      row.aged < LEAST ? "-" : String(Math.round(row.ages[2])),
      barrier(row),
    ]),
  );
  return [
    line(head),
    ...rows,
    "",
    ...wrap(
      `Shares are of the ${all.known} whose outcome is known; age is the middle one of those told, in years; fewer than ${LEAST} give no share. People bring what they hope to mend: such shares are no odds for a machine you are called to.`,
      width,
    ),
  ];
}

function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`;
}
