import type { Machine } from "../sheet/index.ts";

/** Every name a job may use about one family, over all ways its unknown slots may be filled. */
export interface MachineNames {
  readonly points: ReadonlySet<string>;
  /** Parts and causes by id; what a technician calls them → id. */
  readonly parts: ReadonlyMap<string, string>;
  readonly signs: ReadonlyMap<string, readonly string[]>;
  /** Cause → measurement → unit. */
  readonly measures: ReadonlyMap<string, ReadonlyMap<string, string>>;
  readonly slots: ReadonlyMap<string, ReadonlySet<string>>;
  readonly plugs: ReadonlySet<string>;
  readonly access: ReadonlyMap<
    string,
    { readonly minutes: number; readonly position: string; readonly after?: string }
  >;
  readonly inputs: ReadonlySet<string>;
  readonly steps: ReadonlySet<string>;
  readonly conditions: ReadonlySet<string>;
  readonly outputs: ReadonlySet<string>;
  readonly assemblies: ReadonlySet<string>;
}

/** Names of all machines that one family sheet may turn out to be. */
export function namesOf(machines: readonly Machine[]): MachineNames {
  const parts = new Map<string, string>();
  const slots = new Map<string, Set<string>>();
  for (const machine of machines) {
    for (const [slot, variant] of machine.choice) slots.set(slot, (slots.get(slot) ?? new Set()).add(variant));
    for (const part of machine.parts) parts.set(part.says, part.id);
    for (const cause of machine.causes) parts.set(cause.says, cause.id);
  }
  // Ids last: an id always means itself.
  for (const machine of machines) {
    for (const named of [...machine.parts, ...machine.causes]) parts.set(named.id, named.id);
  }
  const all = <T>(list: (machine: Machine) => readonly T[]): T[] => machines.flatMap((machine) => [...list(machine)]);
  const variables = all((machine) => machine.variables);
  return {
    points: new Set(all((machine) => machine.points).map((point) => point.id)),
    parts,
    signs: new Map(all((machine) => machine.signs).map((sign) => [sign.id, sign.answers])),
    measures: new Map(
      all((machine) => machine.causes).map((cause) => [
        cause.id,
        new Map(cause.measures.map((measure) => [measure.id, measure.unit])),
      ]),
    ),
    slots,
    plugs: new Set(all((machine) => machine.plugs).map((plug) => plug.id)),
    access: new Map(
      all((machine) => machine.access).map((group) => [
        group.id,
        {
          minutes: group.openMinutes,
          position: group.position,
          ...(group.after === undefined ? {} : { after: group.after }),
        },
      ]),
    ),
    inputs: new Set(variables.filter((variable) => variable.role === "input").map((variable) => variable.id)),
    steps: new Set(all((machine) => machine.steps).map((step) => step.id)),
    conditions: new Set(all((machine) => machine.conditions).map((condition) => condition.id)),
    outputs: new Set(variables.filter((variable) => variable.role === "output").map((variable) => variable.id)),
    assemblies: new Set(all((machine) => machine.assemblies).map((assembly) => assembly.id)),
  };
}
