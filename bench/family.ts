import { shippedMachine } from "../test/machines/shipped.ts";

/** Families that benches run on, each by itself: `npx tsx bench/run.bench.ts dishwasher`. */
export const FAMILIES = ["tumble-dryer", "dishwasher", "washing-machine"] as const;

/** The family named on the command line, the dryer where none is, and its likeliest machine. */
export function askedFamily() {
  const name = FAMILIES.find((family) => family === process.argv[2]) ?? FAMILIES[0];
  const machine = shippedMachine(name);
  return { name, machine, answers: Object.fromEntries(machine.choice) };
}
