/** What was asked of a figure: never more, or never less, than this. */
interface Asked {
  readonly what: string;
  readonly measured: number;
  readonly unit: string;
  readonly atMost?: number;
  readonly atLeast?: number;
}

/** Says what was asked beside what was measured, in the one form that run-all.mjs gathers; a bench that breaks it fails. */
export function promise({ what, measured, unit, atMost, atLeast }: Asked): void {
  const kept = measured <= (atMost ?? Number.POSITIVE_INFINITY) && measured >= (atLeast ?? Number.NEGATIVE_INFINITY);
  const asked = atMost === undefined ? `at least ${atLeast} ${unit}` : `at most ${atMost} ${unit}`;
  const shown = measured < 10 ? measured.toFixed(2) : measured.toFixed(0);
  console.log(`promise | ${what} | ${asked} | ${shown} ${unit} | ${kept ? "kept" : "NOT KEPT"}`);
  if (!kept) process.exitCode = 1;
}
