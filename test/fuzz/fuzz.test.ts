import { describe, expect, it } from "vitest";
import { forms, judgeMutant, mutantOf } from "./mutant.ts";

/** Mutants of each form here, where `npm run soak` makes a hundred thousand. */
const COUNTS: Readonly<Record<string, number>> = {
  deck: 800,
  questions: 800,
  evidence: 800,
  table: 400,
  kind: 1000,
  sheet: 120,
  house: 100,
  meter: 300,
  costs: 300,
  job: 300,
  shelf: 300,
  lives: 200,
  duties: 200,
  powerlog: 300,
  repairs: 400,
};
/** Above this one file is a hang, on the slowest machine. */
const MOST_MILLISECONDS = 15_000;
const SEED = 7;

describe("mutated files are taken with lawful, finite output or refused in words; never thrown at, never another answer", () => {
  it.each(forms.map((form) => [COUNTS[form.name] ?? 0, form.name, form] as const))(
    "%d of %s (seed 7)",
    (count, _, form) => {
      const failures: string[] = [];
      let taken = 0;
      for (let number = 0; number < count; number++) {
        const mutant = mutantOf(form, SEED, number);
        const outcome = judgeMutant(mutant);
        if (outcome.taken) taken++;
        if (outcome.failure !== undefined)
          failures.push(`${number}: ${mutant.file}: ${mutant.how}: ${outcome.failure}`);
        if (outcome.milliseconds > MOST_MILLISECONDS) failures.push(`${number}: took ${outcome.milliseconds} ms`);
      }
      expect(failures.slice(0, 10)).toEqual([]);
      expect(Math.min(taken, count - taken)).toBeGreaterThan(count / 50);
    },
  );
});
