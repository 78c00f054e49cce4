import { draw, type Random } from "../chance/index.ts";
import type { Effect, Mode } from "../fault/index.ts";
import type { Rated } from "../quantity/index.ts";
import type { Machine } from "../sheet/index.ts";
import type { ForeseenCase, Hypothesis } from "../suspect/index.ts";

/** A machine as it stands in one kitchen: its rated numbers as they really are, and what is wrong with it. */
export interface DrawnMachine {
  /** No number of it has a spread. */
  readonly machine: Machine;
  /** What is wrong, each mode at the one strength drawn. */
  readonly faults: readonly Mode[];
  /** Share of operations on which the fault is there; 1 = always. */
  readonly failsOn: number;
}

/** How a machine is drawn. */
export interface DrawOptions {
  /** Part spreads and strengths of faults are drawn; false: every number as written. */
  readonly spread: boolean;
  /** Only what this lets pass is drawn. */
  readonly among?: (hypothesis: Hypothesis) => boolean;
}

/** A severity is written for a decade of ohms: half a decade to either side (as it is foreseen). */
const HALF_DECADE = Math.log(10) / 2;

/**
 * A machine with a fault, drawn by the prior odds of a case: single faults by share, victims with their causes, unrelated
 * pairs, faults that come and go. Machines with nothing wrong, or with what no sheet knows, are not drawn.
 *
 * @param the  a case with one candidate: the machine's type is known
 */
export function drawMachine(the: ForeseenCase, random: Random, options: DrawOptions): DrawnMachine {
  const [{ machine }] = the.candidates;
  const weights = Float64Array.from(the.hypotheses, (hypothesis) =>
    hypothesis.modes.length > 0 && (options.among?.(hypothesis) ?? true) ? Math.exp(hypothesis.logPrior) : 0,
  );
  const hypothesis = the.hypotheses[random.fork("fault").pick(weights)];
  const parts = random.fork("parts");
  const parameters = machine.parameters.map(({ rated }) => (options.spread ? draw(rated, parts) : rated.nominal));
  const strength = random.fork("strength");
  const faults = hypothesis.modes.map((mode, m) => {
    const { effects } = mode.severities[hypothesis.severities[m]];
    const by = options.spread ? Math.exp(HALF_DECADE * (2 * strength.uniform() - 1)) : 1;
    return { ...mode, severities: [{ weight: 1, effects: effects.map((effect) => stronger(effect, by)) }] };
  });
  return { machine: withNumbers(machine, parameters), faults, failsOn: hypothesis.failsOn };
}

/** The machine with its rated numbers settled: nothing of it has a tolerance any more. */
export function withNumbers(machine: Machine, parameters: readonly number[]): Machine {
  return {
    ...machine,
    parameters: machine.parameters.map((parameter, p) => ({
      ...parameter,
      rated: exactly(parameter.rated, parameters[p]),
    })),
    elements: machine.elements.map((element) => ({
      ...element,
      values: element.values.map((value) => {
        const nominal = value.of(parameters);
        return { nominal, of: () => nominal, slopes: [] };
      }),
    })),
  };
}

function exactly(rated: Rated, value: number): Rated {
  return { ...rated, nominal: value, lo: value, hi: value, spread: "exact" };
}

function stronger(effect: Effect, by: number): Effect {
  return effect.does === "series" || effect.does === "parallel" || effect.does === "leak"
    ? { ...effect, ohms: effect.ohms * by }
    : effect;
}
