import type { Access, Machine } from "../sheet/index.ts";

/** How things stand at the machine. */
export interface Place {
  /** The mains plug is in: it counts as live, whatever a switch says. */
  readonly live: boolean;
  /** Holds from a two-pole test until the next energising. */
  readonly provedDead: boolean;
  readonly open: ReadonlySet<string>;
  /** Covers behind which every charge was let off since the last energising. */
  readonly discharged: ReadonlySet<string>;
  readonly pulled: ReadonlySet<string>;
  readonly freed: ReadonlySet<string>;
  readonly hands: ReadonlyMap<string, number>;
  /** It was seen to work since the last thing that was done to it. */
  readonly verified: boolean;
}

/** On arrival: shut, plugged in, as the customer left it. */
export const AS_FOUND: Place = {
  live: true,
  provedDead: false,
  open: new Set(),
  discharged: new Set(),
  pulled: new Set(),
  freed: new Set(),
  hands: new Map(),
  verified: false,
};

/** The cover a part, cause, joint, point, connector or assembly is behind; undefined: in plain view. */
export function coverOf(machine: Machine, name: string): Access | undefined {
  const { parts, causes, points, plugs, assemblies } = machine;
  const point = points.find(({ id }) => id === name);
  const plug = plugs.find(({ id }) => id === name);
  const access =
    point?.access ??
    plug?.access ??
    parts.find(({ id }) => id === name)?.access ??
    causes.find(({ id }) => id === name)?.look?.access ??
    assemblies.find(({ id }) => id === name)?.access;
  return access === undefined ? undefined : machine.access.find(({ id }) => id === access);
}
