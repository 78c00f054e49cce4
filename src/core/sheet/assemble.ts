import { type Checked, IssueList } from "../issue/index.ts";
import type { Evaluate, Expression } from "../part/index.ts";
import { Build } from "./build.ts";
import { readCauses } from "./causes.ts";
import { completeParts } from "./complete.ts";
import { applyDifferences } from "./difference.ts";
import type { Draft } from "./draft.ts";
import { drawCircuit } from "./draw.ts";
import { faultNames } from "./fault-names.ts";
import { type Fitted, fitParts } from "./fit.ts";
import { expressionAt, Formulas } from "./formulas.ts";
import type { House, Library } from "./house.ts";
import { JointKinds } from "./joints.ts";
import { mergeLayers } from "./lay.ts";
import { readCodes, readLinks, readWhyOpen } from "./links.ts";
import type { Assembly, Machine, Part } from "./machine.ts";
import type { Merged } from "./merge.ts";
import { Names } from "./names.ts";
import { declareWorld, readConditions, readInputs, readServiceOutputs, readSteps, readWorld } from "./programme.ts";
import { readAccess, readAssemblies, refuseUnknownReach } from "./reach.ts";
import type { Sheet } from "./sheet.ts";
import { readSigns } from "./signs.ts";
import { Wiring } from "./wiring.ts";
import { Wording } from "./wording.ts";

/**
 * One machine of a family: its slots chosen, its differences applied, every wire split by plugs and joints.
 *
 * @param choice       slot → variant, as `combinations` gives it
 * @param differences  sentences about this one machine; see `applyDifferences`
 * @returns            the machine; or every issue, each with file, line and path
 */
export function assemble(
  sheet: Sheet,
  library: Library,
  choice: ReadonlyMap<string, string>,
  differences: readonly string[] = [],
): Checked<Machine> {
  const { issues, machine } = putTogether(sheet, library, choice, differences);
  return issues.conclude(() => machine);
}

/** A machine with everything it was made from, for `assemble` and for the checks. */
export interface Assembled {
  readonly merged: Merged;
  readonly draft: Draft;
  readonly wiring: Wiring;
  readonly formulas: Formulas;
  /** Complete, but not to be used when `issues` has errors. */
  readonly machine: Machine;
  readonly issues: IssueList;
}

export function putTogether(
  sheet: Sheet,
  library: Library,
  choice: ReadonlyMap<string, string>,
  differences: readonly string[] = [],
): Assembled {
  const issues = new IssueList();
  const house = library.houses.get(sheet.supply.house);
  if (house === undefined) throw new Error(`sheet of another library: it has no house ${sheet.supply.house}`);
  const merged = mergeLayers(sheet, house, library.pieces, choice);
  const draft = drawCircuit(merged, library, issues);
  applyDifferences(draft, differences, library);

  const build = new Build();
  readInputs(merged, build, issues);
  declareWorld(merged, build, issues);
  const assemblies = readAssemblies(merged, issues);
  const wiring = new Wiring(draft);
  const wording = new Wording(draft, wiring, new Map(assemblies.map(({ id, says }) => [id, says])));
  const accessOf = accessThrough(assemblies, draft);
  const fitted = fitParts(draft, wiring, wording, new JointKinds(library, draft), build, accessOf);

  const quantities = new Map<string, Expression>();
  for (const [name, cursor] of merged.section("quantities", issues)) {
    const expression = expressionAt(cursor);
    if (expression !== undefined) quantities.set(name, expression);
  }
  let formulas: Formulas | undefined;
  const names = new Names({
    build,
    nodes: nodeNames(build, wiring, fitted),
    choice,
    absent: draft.absent,
    quantities,
    groups: groupsOf(build.parts, fitted),
    take: (expression, resolver) => formulas?.compile(expression, resolver),
  });
  formulas = new Formulas(names, issues);
  completeParts(build, names, formulas);

  const world = readWorld(merged, build, formulas, issues);
  const steps = readSteps(merged, build, formulas, issues);
  const conditions = readConditions(merged, build, steps, issues);
  const stepIds = steps.map(({ id }) => id);
  const signs = readSigns(merged, formulas, [...stepIds, ...conditions.map(({ id }) => id)], stepIds, issues);
  const causes = readCauses(merged, build, issues);
  const faults = faultNames(build.parts, causes);
  const access = readAccess(merged, issues);
  const links = readLinks(merged, faults, issues);
  const whyOpen = readWhyOpen(merged, draft, issues);
  const codes = readCodes(merged, issues);
  const serviceOutputs = readServiceOutputs(merged, build, issues);
  const compiled = new Map(
    [...quantities.keys()].flatMap((name): [string, Evaluate][] => {
      const evaluate = names.quantity(name);
      return evaluate === undefined ? [] : [[name, evaluate]];
    }),
  );
  const machine: Machine = {
    title: sheet.title,
    choice,
    nodes: wiring.names,
    parameters: build.parameters,
    parts: build.parts,
    elements: build.elements,
    stateSets: build.stateSets,
    variables: build.variables,
    world,
    steps,
    conditions,
    signs,
    causes,
    links,
    whyOpen,
    codes,
    points: fitted.points,
    plugs: fitted.plugs,
    assemblies,
    access,
    serviceOutputs,
    quantities: compiled,
    goods: build.goods,
    plugElements: plugElements(house, build),
    mains: build.elements.flatMap(({ what }, index) => (what === "V~" || what === "V=" ? [index] : [])),
    supply: { house: house.name, class: sheet.supply.class, hertz: house.hertz, volts: house.volts },
    weightJobs: sheet.weightJobs,
  };
  refuseUnknownReach(merged, access, draft, assemblies, issues);
  return { merged, draft, wiring, formulas, machine, issues };
}

function accessThrough(
  assemblies: readonly Assembly[],
  draft: Draft,
): (owner: string | undefined) => string | undefined {
  return (owner) => {
    if (owner === undefined) return undefined;
    return assemblies.find(({ id }) => id === owner)?.access ?? draft.parts.get(owner)?.access;
  };
}

function nodeNames(build: Build, wiring: Wiring, fitted: Fitted): ConstructorParameters<typeof Names>[0]["nodes"] {
  const inPart = (part: string, place: string): number | undefined => {
    const index = build.partIndex.get(part);
    return (index === undefined ? undefined : build.parts[index]?.pins.get(place)) ?? wiring.find(`${part}:${place}`);
  };
  return {
    inPart,
    ofWire: (wire) => wiring.find(wiring.wire(wire)),
    ofPoint: (id) => {
      const point = fitted.pointIndex.get(id);
      if (point !== undefined) return fitted.points[point]?.node;
      const dot = id.indexOf(".");
      return dot < 0 ? undefined : inPart(id.slice(0, dot), id.slice(dot + 1));
    },
  };
}

/** Groups that `hottest` may name: a plug (its pins), a part, an assembly (its parts), a kind, and `joint` for all joints. */
function groupsOf(parts: readonly Part[], fitted: Fitted): ReadonlyMap<string, readonly number[]> {
  const groups = new Map<string, number[]>();
  const add = (name: string, elements: readonly number[]) =>
    groups.set(name, [...(groups.get(name) ?? []), ...elements]);
  for (const plug of fitted.plugs) add(plug.id, plug.elements);
  for (const part of parts) {
    if (part.joint === undefined) add(part.id, part.elements);
    else add("joint", part.elements);
    if (part.of !== undefined) add(part.of, part.elements);
    if (part.instance.kind !== part.id) add(part.instance.kind, part.elements);
  }
  return groups;
}

function plugElements(house: House, build: Build): Machine["plugElements"] {
  const find = (name: string | undefined): number => (name === undefined ? -1 : (build.elementIndex.get(name) ?? -1));
  const { lines, neutral, earth } = house.atThePlug;
  return lines.map((line) => ({ line: find(line), neutral: find(neutral), earth: find(earth) }));
}
