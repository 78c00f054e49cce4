import type { Machine } from "../sheet/index.ts";
import { SOMETIMES } from "../sign/index.ts";
import { NameBook } from "./name-book.ts";

/** Every name a job may use about one family, over all ways its unknown slots may be filled. */
export interface MachineNames {
  readonly points: NameBook;
  /** Parts and causes. */
  readonly parts: NameBook;
  readonly signs: NameBook;
  /** Sign → its answers, "sometimes" included. */
  readonly answers: ReadonlyMap<string, NameBook>;
  readonly causes: NameBook;
  /** Cause → its measurements. */
  readonly measures: ReadonlyMap<string, { readonly names: NameBook; readonly units: ReadonlyMap<string, string> }>;
  readonly plugs: NameBook;
  readonly access: NameBook;
  readonly covers: ReadonlyMap<
    string,
    { readonly minutes: number; readonly position: string; readonly after?: string }
  >;
  /** What may be ticked as put back: what covers disturb, connectors, parts whose wires were off. */
  readonly putsBack: NameBook;
  readonly inputs: NameBook;
  readonly steps: NameBook;
  readonly conditions: NameBook;
  readonly outputs: NameBook;
  /** Parts, causes and assemblies: what a remedy can be done to. */
  readonly mended: NameBook;
}

/** Names of all machines that one family sheet may turn out to be. */
export function namesOf(machines: readonly Machine[]): MachineNames {
  const all = <T>(list: (machine: Machine) => readonly T[]): T[] => machines.flatMap((machine) => [...list(machine)]);
  const causes = all((machine) => machine.causes);
  const signs = all((machine) => machine.signs);
  const variables = all((machine) => machine.variables);
  const access = all((machine) => machine.access);
  const variablesOf = (role: string) =>
    new NameBook(variables.filter((one) => one.role === role).map(({ id }) => [id]));
  return {
    points: new NameBook(all((machine) => machine.points).map(({ id, says }) => [id, says])),
    parts: new NameBook([...all((machine) => machine.parts), ...causes].map(({ id, says }) => [id, says])),
    signs: new NameBook(signs.map(({ id, ask }) => [id, ask])),
    answers: new Map(
      signs.map(({ id, answers }) => [id, new NameBook([...answers, SOMETIMES].map((answer) => [answer]))]),
    ),
    causes: new NameBook(causes.map(({ id, says }) => [id, says])),
    measures: new Map(
      causes.map(({ id, measures }) => [
        id,
        {
          names: new NameBook(measures.map((measure) => [measure.id, measure.says])),
          units: new Map(measures.map((measure) => [measure.id, measure.unit])),
        },
      ]),
    ),
    plugs: new NameBook(all((machine) => machine.plugs).map(({ id }) => [id, `connector ${id}`])),
    access: new NameBook(access.map(({ id, says }) => [id, says])),
    covers: new Map(
      access.map(({ id, openMinutes, position, after }) => [
        id,
        { minutes: openMinutes, position, ...(after === undefined ? {} : { after }) },
      ]),
    ),
    putsBack: new NameBook([
      ...access.flatMap(({ putsBack }) => putsBack.map((item) => [item] as const)),
      ...all((machine) => machine.plugs).map(({ id }) => [id, `connector ${id}`] as const),
      ...all((machine) => machine.parts).map(({ id, says }) => [id, says] as const),
    ]),
    inputs: variablesOf("input"),
    steps: new NameBook(all((machine) => machine.steps).map(({ id }) => [id])),
    conditions: new NameBook(all((machine) => machine.conditions).map(({ id }) => [id])),
    outputs: variablesOf("output"),
    mended: new NameBook(
      [...all((machine) => [...machine.parts, ...machine.assemblies]), ...causes].map(({ id, says }) => [id, says]),
    ),
  };
}
