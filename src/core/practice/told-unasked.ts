import type { Machine } from "../sheet/index.ts";

/** Things a caller tells unasked (from memory). */
const TOLD = 2;

/** What a caller tells unasked: what the machine does or does not do before what else was noticed about it. */
export function toldUnasked(machine: Machine, complaints: readonly string[]): readonly string[] {
  const met = machine.signs.filter(({ id }) => complaints.includes(id));
  return [...met.filter(({ rule }) => rule.kind !== "table"), ...met.filter(({ rule }) => rule.kind === "table")]
    .slice(0, TOLD)
    .map(({ id }) => id);
}
