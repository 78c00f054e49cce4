import type { ElementWhat, Evaluate, Haste, KindInstance } from "../part/index.ts";
import type { Rated, Source } from "../quantity/index.ts";

/**
 * One machine: a family sheet with its slots chosen and its differences applied, every wire split by plugs and joints,
 * every name an index. Made by `assemble`; nothing after it reads a sheet again. Indices point into the arrays here.
 */
export interface Machine {
  readonly title: string;
  /** Slot → variant, as chosen. */
  readonly choice: ReadonlyMap<string, string>;
  /** Inner wire names by node; never shown to a technician. */
  readonly nodes: readonly string[];
  readonly parameters: readonly Parameter[];
  readonly parts: readonly Part[];
  readonly elements: readonly MachineElement[];
  readonly stateSets: readonly StateSet[];
  readonly variables: readonly Variable[];
  readonly world: readonly WorldRule[];
  readonly steps: readonly Step[];
  readonly conditions: readonly Condition[];
  readonly signs: readonly SignRule[];
  readonly causes: readonly Cause[];
  readonly links: readonly Link[];
  /** Protector part id → why it opened: cause name → chance. */
  readonly whyOpen: ReadonlyMap<string, ReadonlyMap<string, number>>;
  /** Display code class → sign about a circuit, in words. */
  readonly codes: ReadonlyMap<string, string>;
  readonly points: readonly Point[];
  readonly plugs: readonly Plug[];
  readonly assemblies: readonly Assembly[];
  readonly access: readonly Access[];
  /** Outputs that the service test can command singly: variable indices. */
  readonly serviceOutputs: readonly number[];
  /** Named formulas that signs and readings use, whatever the variant: `heat`, `rated`, `lit`. */
  readonly quantities: ReadonlyMap<string, Evaluate>;
  /** Formulas asked "of good"; see `Moment.good`. */
  readonly goods: readonly Evaluate[];
  /** Elements through which the appliance's whole current flows, one entry a line (the cores of its cord); -1: there is none. */
  readonly plugElements: readonly { readonly line: number; readonly neutral: number; readonly earth: number }[];
  /** Element indices of the mains sources, and of the low-voltage sources. */
  readonly mains: readonly number[];
  readonly supply: {
    readonly house: string;
    readonly class: "I" | "II";
    readonly hertz: number;
    readonly volts: number;
  };
  /** Pseudo-counts behind every share. */
  readonly weightJobs: number;
}

/** A rated number that a part's elements depend on; its spread is what tolerance means. */
export interface Parameter {
  readonly id: string;
  readonly rated: Rated;
}

export interface Part {
  readonly id: string;
  /** What a technician calls it; a joint says what it joins: "bad connection at the heater". */
  readonly says: string;
  readonly instance: KindInstance;
  /** Pin name → node on the part's own side of its joint. */
  readonly pins: ReadonlyMap<string, number>;
  readonly elements: readonly number[];
  readonly stateSets: readonly number[];
  /** Knob name → variable. */
  readonly knobs: ReadonlyMap<string, number>;
  readonly access?: string;
  /** Mode → what is felt of it by hand, plug out and nothing opened: a seized motor by the drum. */
  readonly byHand?: ReadonlyMap<string, string>;
  /** Assembly it belongs to (a relay on the control). */
  readonly of?: string;
  /** Failures per 100 attended calls of this family, all modes together. */
  readonly share: number;
  readonly shareSource?: Source;
  /** Present when the part is a joint: the part and pin it serves, or the plug and pin it is. */
  readonly joint?: { readonly part?: string; readonly pin?: string; readonly plug?: string; readonly class: string };
}

export interface MachineElement {
  /** `heater.first1` */
  readonly id: string;
  readonly part: number;
  readonly what: ElementWhat;
  readonly a: number;
  readonly b: number;
  /** State set its value follows, or -1. */
  readonly set: number;
  /** One value a state of `set` (or a single one): ohms, farads, henries or volts; Infinity ohms = open. */
  readonly values: readonly ElementValue[];
  /** Phase of an AC source, degrees; 0 when absent. */
  readonly degrees?: number;
}

export interface ElementValue {
  readonly nominal: number;
  /** The value for given parameters, indexed as `Machine.parameters`. */
  readonly of: (parameters: ArrayLike<number>) => number;
  /** d(value)/d(parameter) at nominal, for every parameter it depends on. */
  readonly slopes: readonly { readonly parameter: number; readonly slope: number }[];
}

export interface StateSet {
  readonly part: number;
  readonly name: string;
  readonly states: readonly string[];
  readonly keeps: boolean;
  readonly moves: readonly {
    readonly from?: readonly number[];
    readonly to: number;
    readonly when: Evaluate;
    readonly takes: Haste;
    readonly permanent: boolean;
  }[];
}

/** Hands and world in a good machine, a part's knob, a control's output. Value 1 is "yes". */
export interface Variable {
  readonly id: string;
  readonly role: "input" | "world" | "knob" | "output";
  readonly initial: number;
}

export interface WorldRule {
  readonly variable: number;
  readonly is: Evaluate;
  readonly takes: "seconds" | "minutes";
  /** Has a memory: keeps the lowest or highest value it met. */
  readonly keeps?: "lowest" | "highest";
}

export interface Step {
  readonly id: string;
  /** Outputs driven (variables of role "output"), each under its guard. */
  readonly drives: readonly { readonly output: number; readonly guard?: Evaluate; readonly guardSays?: string }[];
  /** Asked once on entering: what the machine says when one does not hold. */
  readonly entersIf: readonly { readonly says: string; readonly when: Evaluate }[];
  /** Asked throughout: lost, all outputs go off. */
  readonly needs: readonly { readonly says: string; readonly when: Evaluate }[];
  readonly timeOuts: readonly {
    readonly id: string;
    readonly if: Evaluate;
    readonly afterSeconds: number;
    readonly then: readonly (
      | { readonly do: "stop" | "drain" | "go on" | "lock out" }
      | { readonly do: "say"; readonly says: string }
    )[];
  }[];
  /** The programme goes on only while this holds. */
  readonly runBy?: Evaluate;
  /** Watts at the plug in a healthy machine, a band only to check the sheet. */
  readonly watts?: Rated;
}

/** A state in which the machine is looked at beside its programme: plug out, door open, kettle on. */
export interface Condition {
  readonly id: string;
  /** Step it follows, or none: at rest. */
  readonly after?: string;
  readonly set: readonly { readonly variable: number; readonly to: number }[];
}

/** Chance that a witness reports a sign that is there, and one that is not. */
export interface WitnessOdds {
  readonly hit: number;
  readonly falseAlarm: number;
}

/** A test on the pictures of one step. */
export type SignTest =
  | { readonly all: readonly SignTest[] }
  | { readonly any: readonly SignTest[] }
  | { readonly not: SignTest }
  | { readonly at: Haste | "end"; readonly when: Evaluate };

export interface SignRule {
  readonly id: string;
  /** The question in plain words. */
  readonly ask: string;
  /** Step or condition it is about; absent for `when-first` and tables. */
  readonly in?: string;
  readonly answers: readonly string[];
  readonly rule:
    | { readonly kind: "test"; readonly test: SignTest }
    /** First level whose test holds; the last has none. Neighbours share the miss chance. */
    | { readonly kind: "levels"; readonly tests: readonly SignTest[] }
    /** First step, in the order of `answers`, in which the condition holds; answers[0] is "never". */
    | { readonly kind: "when-first"; readonly when: Evaluate }
    /** What the machine says by the end of its programme; answers[0] is "none". */
    | { readonly kind: "says" }
    /** P(yes | fault) by cause, part or `part/mode` (a trailing `*` matches), and for all others. */
    | { readonly kind: "table"; readonly chance: ReadonlyMap<string, number>; readonly otherwise: number };
  readonly told: WitnessOdds;
  readonly heard: WitnessOdds;
  readonly seen: WitnessOdds;
  /** Minutes to find out by looking, where a technician can. */
  readonly minutes?: number;
  /** Sign, and those of its answers after which this one is no question any more. */
  readonly unless?: readonly (readonly [sign: string, answers: readonly string[]])[];
}

/** A cause that is not electrical. `sets` gives severities of one variable. */
export interface Cause {
  readonly id: string;
  readonly says: string;
  readonly group: "mechanical" | "use";
  readonly share: number;
  readonly source?: Source;
  readonly sets: readonly { readonly variable: number; readonly to: readonly number[] }[];
  readonly remedies: KindInstance["remedies"];
  /** Looks and measurements of its own: what a good machine and a machine with this cause shows. */
  readonly measures: readonly {
    readonly id: string;
    readonly says: string;
    readonly unit: string;
    readonly good: Rated;
    readonly bad: Rated;
    readonly minutes: number;
    readonly access?: string;
    readonly cautions: readonly string[];
  }[];
  /** A look of its own: chance that it is seen when present, and when not. */
  readonly look?: {
    readonly says: string;
    readonly odds: WitnessOdds;
    readonly minutes: number;
    readonly access?: string;
    readonly cautions: readonly string[];
  };
}

/** Cause and victim: P(victim | cause). Names are `cause id` or `part/mode`. */
export interface Link {
  readonly cause: string;
  readonly victim: string;
  readonly p: number;
}

/** A place a probe can touch. */
export interface Point {
  /** `X3.1`, `X3.1 inside`, `heater.s1`, `plug.L` */
  readonly id: string;
  readonly node: number;
  /** "connector X3, pin 1 (red)", "heater, outer tab". */
  readonly says: string;
  readonly plug?: string;
  readonly pin?: string;
  readonly colour?: string;
  readonly access?: string;
  /** How it may be probed live. */
  readonly live: "clipped" | "handheld" | "never";
}

export interface Plug {
  readonly id: string;
  readonly of: string;
  readonly ways: number;
  readonly pinOneSays: string;
  readonly access?: string;
  /** Joint elements that are open while this plug is pulled. */
  readonly elements: readonly number[];
  readonly pins: readonly { readonly pin: string; readonly colour?: string; readonly point: number }[];
}

export interface Assembly {
  readonly id: string;
  readonly says: string;
  readonly access?: string;
  readonly minutes: Rated;
  readonly partShare: Rated;
  readonly cured: number;
  readonly back: number;
  readonly coding: boolean;
}

export interface Access {
  readonly id: string;
  readonly says: string;
  readonly openMinutes: number;
  readonly closeMinutes: number;
  readonly position: string;
  readonly needs: readonly string[];
  readonly mayRun: "yes" | "with the cover on only" | "no";
  readonly tools: readonly string[];
  readonly putsBack: readonly string[];
  readonly cautions: readonly string[];
  /** Other access group that must be open first. */
  readonly after?: string;
}
