// Invented random tables for tests and benches of the planner, from a seed.
import { type Random, seeded } from "../../src/core/chance/index.ts";
import type { Table } from "./plan-walker.ts";

/** How good the tests of a table are. */
export type Kind = "crisp" | "half" | "misread" | "appliance" | "noisy";

export interface Sizes {
  readonly causes: number;
  readonly tests: number;
  readonly outcomes: number;
  readonly groups: number;
  readonly stop: boolean;
}

/** A table of a kind; the same seed gives the same table. */
export function drawTable(kind: Kind, sizes: Sizes, seed: number): Table {
  const random = seeded(`${kind}/${JSON.stringify(sizes)}/${seed}`);
  const causes = Array.from({ length: sizes.causes }, (_, c) => ({
    id: `c${c}`,
    share: -Math.log(1 - random.uniform()),
  }));
  const total = causes.reduce((sum, { share }) => sum + share, 0);
  const group = (): string | null =>
    sizes.groups > 0 && random.uniform() < 0.5 ? `g${Math.floor(random.uniform() * sizes.groups)}` : null;
  return {
    format: "faultwright-table/1",
    causes: causes.map(({ id, share }) => ({
      id,
      prior: share / total,
      repair: { cost: 5 + 55 * random.uniform(), group: group() },
    })),
    groups: Array.from({ length: sizes.groups }, (_, g) => ({ id: `g${g}`, cost: 1 + 9 * random.uniform() })),
    tests: Array.from({ length: sizes.tests }, (_, j) => ({
      id: `t${j}`,
      cost: 0.5 + 7.5 * random.uniform(),
      group: group(),
      outcomes: sizes.outcomes,
      chance: Object.fromEntries(rows(random, kind, sizes, j).map((row, c) => [`c${c}`, row])),
    })),
    ...(sizes.stop ? { stop: { cost: 40 + 60 * random.uniform() } } : {}),
  };
}

function rows(random: Random, kind: Kind, sizes: Sizes, test: number): number[][] {
  const shown = Array.from({ length: sizes.causes }, () => {
    const singled = kind !== "appliance" || random.uniform() < 0.2;
    return singled ? Math.floor(random.uniform() * sizes.outcomes) : 0;
  });
  return shown.map((right) => {
    const truth = rightChance(random, kind, test);
    const wrong = (1 - truth) / (sizes.outcomes - 1);
    return Array.from({ length: sizes.outcomes }, (_, o) => (o === right ? truth : wrong));
  });
}

/** How often the right outcome shows. */
function rightChance(random: Random, kind: Kind, test: number): number {
  if (kind === "crisp") return 1;
  if (kind === "half") return test % 2 === 0 ? 1 : 0.6 + 0.35 * random.uniform();
  if (kind === "noisy") return 0.6 + 0.3 * random.uniform();
  return 0.94 + 0.05 * random.uniform();
}
