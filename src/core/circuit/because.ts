import type { Posed } from "./posed.ts";
import type { WideSolver } from "./wide-solver.ts";

/** Most elements named in one sentence. */
const mostNamed = 8;

/** Why no path joins a and b: what is open with exactly one end in a's island, in words that name parts and nodes. */
export function becauseOpen(posed: Posed, solver: WideSolver, a: number, b: number): string {
  const name = (node: number): string => posed.nodeNames[node];
  const island = solver.island(a);
  const cut = (ends: { readonly a: number; readonly b: number }): boolean =>
    (solver.island(ends.a) === island) !== (solver.island(ends.b) === island);
  const opens = posed.all.flatMap(({ says, openBecause, ...ends }) =>
    openBecause !== undefined && cut(ends) ? [{ says, why: openBecause, ...ends }] : [],
  );
  const removed = posed.removed.filter(cut).map((element) => ({ ...element, why: "removed" }));
  const faulted = opens.filter(({ why }) => why === "open by fault");
  const named = [...faulted, ...opens.filter(({ why }) => why !== "open by fault"), ...removed].map(
    ({ says, why, a: from, b: to }) => `${says} between ${name(from)} and ${name(to)} (${why})`,
  );
  const reasons = named.slice(0, mostNamed).join("; ");
  const more = named.length > mostNamed ? `; and ${named.length - mostNamed} more` : "";
  const lead = `no path from ${name(a)} to ${name(b)}`;
  return named.length === 0 ? `${lead}: no element joins ${name(a)}'s side to the rest` : `${lead}: ${reasons}${more}`;
}
