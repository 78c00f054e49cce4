import type { Mode } from "../../src/core/fault/index.ts";
import { atomsOf, type Fault, type Prediction, type Probe } from "../../src/core/predict/index.ts";
import type { Machine, SignRule } from "../../src/core/sheet/index.ts";
import type { Foresight } from "../../src/core/suspect/index.ts";
import { MachineBuilder } from "./build.ts";

/** A mode of one part, by itself. */
export function plainMode(index: number, id: string, more: Partial<Mode> = {}): Mode {
  return {
    id: `${id}/open`,
    part: index,
    cause: -1,
    parts: [index],
    says: `${id} open`,
    partSays: id,
    share: 1,
    severities: [{ weight: 1, effects: [] }],
    nowAndThen: 0,
    victim: false,
    ...more,
  };
}

/** What is foreseen stands in tables: by probe id and fault, ohms (Infinity = open) with a spread; by sign, the true answer. */
export interface Tables {
  readonly modes: readonly Mode[];
  readonly signs?: readonly SignRule[];
  readonly answers?: (sign: string, fault: Fault) => readonly number[];
  readonly shows?: (probe: string, fault: Fault) => { readonly mean: number; readonly sigma: number };
  readonly more?: Partial<Machine>;
}

/** A machine that is nothing but tables, for tests of the arithmetic of odds. */
export function tableForesight({ modes, signs = [], answers, shows, more = {} }: Tables): Foresight {
  const builder = new MachineBuilder();
  for (const mode of modes) builder.part(mode.id.split("/")[0]);
  const machine = builder.build({ signs, ...more });
  return {
    machine,
    modes,
    atoms: atomsOf(modes),
    answers: (sign, fault) => answers?.(sign.id, fault) ?? [0.5, 0.5],
    commands: () => new Set(),
    has: () => true,
    shows(probe: Probe, _inputOhms: number, fault: Fault): Prediction {
      const { mean, sigma } = shows?.(probe.id, fault) ?? { mean: 10, sigma: 1 };
      return {
        terms: [Number.isFinite(mean) ? { kind: "value", weight: 1, mean, sigma } : { kind: "open", weight: 1 }],
      };
    },
    isQuick: () => true,
  };
}
