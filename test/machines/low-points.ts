// Which points of the shipped sheets hang on a low-voltage rail, read off the sheets by eye: what `railRule` is held against.

/** Connector pins that hang on 5 V or 12 V, read off the sheets by eye; all others are mains, or what a module makes. */
const LOW = {
  dryer: /^X(2|6|7|8|9)\./,
  timer: /^$/,
  dishwasher: /^X(2|6|9|10|11|13|14|15|20)\./,
  "dishwasher with module": /^X(2|4|6|9|10|11|13|14|15|20)\./,
  "washing machine, brushes": /^X(6|11|12|14|20)\.|^X5\.[56]/,
  "washing machine, module": /^X(6|11|12|14|20)\.|^X5\.[456]/,
} as const;
/** Legs of parts that hang on 5 V or 12 V; all others are mains. */
const LOW_LEGS =
  /^(supply\.(v5|v12|com)|[a-z-]*relay[a-z0-9-]*\.A[12]|motor\.(v5|hall|com|tacho-.)|module\.(data|com)|link\..*|(ntc|bars|float|level-s[a-z]+|flow-meter|turbidity|panel|start-key|drum-sensor|salt-reed|command-pull)\..*)$/;
/** The door switch of these boards is read at 5 V. */
const DOOR_SWITCH = /^door-switch\./;

export type LowKind = keyof typeof LOW;

/** Does this point hang on a rail? */
export const isLow = (kind: LowKind, id: string): boolean =>
  LOW[kind].test(id) || (kind !== "timer" && (LOW_LEGS.test(id) || DOOR_SWITCH.test(id)));
