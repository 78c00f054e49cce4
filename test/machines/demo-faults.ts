/** What is wrong with one machine of the demonstration. */
export interface DemoFault {
  /** Ways of failing, by the ids of the engine. */
  readonly modes: readonly HiddenMode[];
  /** Share of operations on which it is there; otherwise always. */
  readonly failsOn?: number;
}

export interface HiddenMode {
  readonly id: string;
  /** Which strength of those that its kind writes; otherwise the first. */
  readonly strength?: number;
}

/**
 * The fault that each job of the demonstration hides, by the name of its file. Invented for the demonstration, as the jobs
 * are: each is what its story in `examples/README.md` means, and as strong as its readings say.
 */
export const demoFaults: Readonly<Record<string, DemoFault>> = {
  "always-damp": { modes: [{ id: "load" }] },
  // The board was accused, and it is its sensor.
  "board-accused": { modes: [{ id: "ntc/open" }] },
  "cold-one-pole": { modes: [{ id: "heat-relay-n/contact1 burnt", strength: 2 }] },
  "cold-victim-of-lint": { modes: [{ id: "one-shot/blown (victim)" }, { id: "lint" }] },
  "hidden-open": { modes: [{ id: "pump/coil open" }] },
  hums: { modes: [{ id: "run-cap/low value", strength: 2 }] },
  "lock-now-and-then": { modes: [{ id: "lock/contact fails" }], failsOn: 0.25 },
  "trips-when-heating": { modes: [{ id: "heater/leaks to case", strength: 2 }] },
  "trips-with-the-kettle": { modes: [{ id: "filter/Y leaks", strength: 2 }] },
  "washes-badly": { modes: [{ id: "loading" }] },
};
