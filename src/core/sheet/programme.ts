import type { IssueList } from "../issue/index.ts";
import { type Cursor, didYouMean, type Evaluate, type Moment } from "../part/index.ts";
import type { Build } from "./build.ts";
import type { Formulas } from "./formulas.ts";
import type { Condition, Machine, Step, WorldRule } from "./machine.ts";
import type { Merged } from "./merge.ts";

export const WORLD_KEYS = ["is", "takes", "start", "keeps", "if", "only-if", "note"] as const;
export const WORLD_TAKES = ["seconds", "minutes"] as const;
export const WORLD_KEEPS = ["lowest", "highest"] as const;
export const TIME_OUT_KEYS = ["if", "after", "then"] as const;
export const CONDITION_KEYS = ["after", "set", "if", "only-if", "note"] as const;

/** Makes a variable of every input: hands and world in a good machine. */
export function readInputs(merged: Merged, build: Build, issues: IssueList): void {
  for (const [id, cursor] of merged.section("inputs", issues)) {
    const value = cursor.number();
    if (value !== undefined) build.variable(id, "input", value);
  }
}

/** Makes a variable of every world value; their formulas are compiled by `readWorld` once all names are known. */
export function declareWorld(merged: Merged, build: Build, issues: IssueList): void {
  for (const [id, cursor] of merged.section("world", issues)) {
    if (build.variableIndex.has(id))
      cursor.refuse("sheet.name.twice", "a name that no input has", undefined, `"${id}"`);
    else build.variable(id, "world", 0);
  }
}

/** What the machine does with power, in the order of the sheet; sets the variables' values at rest. */
export function readWorld(merged: Merged, build: Build, formulas: Formulas, issues: IssueList): readonly WorldRule[] {
  const rules: WorldRule[] = [];
  for (const [id, cursor] of merged.section("world", issues)) {
    cursor.onlyKeys(WORLD_KEYS);
    const variable = build.variableIndex.get(id);
    const isCursor = cursor.need("is", "is: a formula");
    const is = isCursor === undefined ? undefined : formulas.at(isCursor);
    const takes = cursor.need("takes", "takes: seconds or minutes")?.choice(WORLD_TAKES);
    const keeps = cursor.field("keeps")?.choice(WORLD_KEEPS);
    const start = formulas.at(cursor.field("start"));
    if (variable === undefined || is === undefined || takes === undefined) continue;
    const initial = start === undefined ? 0 : start(atRest(build));
    build.variables[variable] = { id, role: "world", initial };
    rules.push({ variable, is, takes, ...(keeps === undefined ? {} : { keeps }) });
  }
  return rules;
}

/** A machine with no power: variables as they are before anything ran, nothing flows. */
export function atRest(build: Build): Moment {
  const zero = (): number => 0;
  return {
    volts: zero,
    amps: zero,
    watts: zero,
    between: zero,
    cross: zero,
    apart: zero,
    state: zero,
    good: zero,
    variable: (index) => build.variables[index]?.initial ?? 0,
    parameter: (index) => build.parameters[index]?.rated.nominal ?? 0,
  };
}

export const STEP_KEYS = [
  "drives",
  "guards",
  "needs",
  "enters-if",
  "time-outs",
  "watts",
  "run-by",
  "if",
  "only-if",
  "note",
] as const;

/** The steps of the programme, in the order of the family. */
export function readSteps(merged: Merged, build: Build, formulas: Formulas, issues: IssueList): readonly Step[] {
  const common = new Map(merged.section("guards", issues));
  const runBy = formulas.allAt(merged.single("run-by", issues)?.items() ?? []);
  const steps: Step[] = [];
  for (const [id, cursor] of merged.section("steps", issues)) {
    cursor.onlyKeys(STEP_KEYS);
    const own = new Map(cursor.field("guards")?.entries() ?? []);
    const guards = new Map<string, Evaluate>();
    for (const name of new Set([...own.keys(), ...common.keys()])) {
      const all = [...(own.get(name)?.items() ?? []), ...(common.get(name)?.items() ?? [])];
      const guard = formulas.allAt(all);
      if (guard !== undefined) guards.set(name, guard);
    }
    const drives = (cursor.field("drives")?.entries() ?? []).flatMap(([output, at]) => {
      const name = at.text("the name of a guard, or nothing") ?? "";
      const guard = guards.get(name);
      if (name !== "" && guard === undefined) {
        at.refuse("sheet.step.guard", "a guard of this step", didYouMean(name, guards.keys()), `"${name}"`);
      }
      const variable = outputOf(output, at, build);
      if (variable === undefined) return [];
      return [{ output: variable, ...(guard === undefined ? {} : { guard, guardSays: name }) }];
    });
    const watts = cursor.field("watts")?.amount({ unit: "W" });
    const stepRunBy = formulas.allAt(cursor.field("run-by")?.items() ?? []);
    steps.push({
      id,
      drives,
      entersIf: says(cursor.field("enters-if"), formulas),
      needs: says(cursor.field("needs"), formulas),
      timeOuts: readTimeOuts(cursor.field("time-outs"), formulas),
      ...withRunBy(drives.length > 0 ? runBy : undefined, stepRunBy),
      ...(watts === undefined ? {} : { watts }),
    });
  }
  return steps;
}

function withRunBy(a: Evaluate | undefined, b: Evaluate | undefined): { readonly runBy?: Evaluate } {
  if (a !== undefined && b !== undefined) return { runBy: (moment) => (a(moment) !== 0 && b(moment) !== 0 ? 1 : 0) };
  const one = a ?? b;
  return one === undefined ? {} : { runBy: one };
}

function outputOf(name: string, cursor: Cursor, build: Build): number | undefined {
  const variable = build.variableIndex.get(name);
  if (variable !== undefined && build.variables[variable]?.role === "output") return variable;
  const outputs = build.variables.filter(({ role }) => role === "output").map(({ id }) => id);
  return cursor.refuse("sheet.step.output", "an output this machine has", didYouMean(name, outputs), `"${name}"`);
}

function says(
  cursor: Cursor | undefined,
  formulas: Formulas,
): readonly { readonly says: string; readonly when: Evaluate }[] {
  return (cursor?.entries() ?? []).flatMap(([word, at]) => {
    const when = formulas.allAt(at.items());
    return when === undefined ? [] : [{ says: word, when }];
  });
}

function readTimeOuts(cursor: Cursor | undefined, formulas: Formulas): Step["timeOuts"] {
  const found = (cursor?.entries() ?? []).flatMap(([id, at]) => {
    at.onlyKeys(TIME_OUT_KEYS);
    const condition = formulas.at(at.need("if", "if: a condition"));
    const afterSeconds = at.need("after", "after: a time")?.amount({ unit: "s" })?.nominal;
    const then = (at.need("then", "then: [stop, say ...]")?.items() ?? []).flatMap((item) => outcome(item) ?? []);
    return condition === undefined || afterSeconds === undefined ? [] : [{ id, if: condition, afterSeconds, then }];
  });
  return found.sort((a, b) => a.afterSeconds - b.afterSeconds);
}

/** The step that a machine which gives up and drains goes to. */
export const DRAIN_STEP = "drain";

function outcome(cursor: Cursor): Step["timeOuts"][number]["then"][number] | undefined {
  const text = cursor.word("stop | drain | go on | lock out until cleared | say <word>");
  switch (text) {
    case undefined:
      return undefined;
    case "stop":
    case "drain":
    case "go on":
      return { do: text };
    case "lock out":
    case "lock out until cleared":
      return { do: "lock out" };
    default:
      if (text.startsWith("say ")) return { do: "say", says: text.slice(4).trim() };
      return cursor.refuse("sheet.time-out.then", "stop | drain | go on | lock out until cleared | say <word>");
  }
}

/** States in which the machine is looked at beside its programme. */
export function readConditions(
  merged: Merged,
  build: Build,
  steps: readonly Step[],
  issues: IssueList,
): readonly Condition[] {
  const stepIds = steps.map(({ id }) => id);
  return merged.section("conditions", issues).flatMap(([id, cursor]) => {
    cursor.onlyKeys(CONDITION_KEYS);
    const afterCursor = cursor.field("after");
    const after = afterCursor?.word("a step");
    if (stepIds.includes(id)) cursor.refuse("sheet.name.twice", "a name that no step has", undefined, `"${id}"`);
    if (after !== undefined && !stepIds.includes(after)) {
      afterCursor?.refuse("sheet.step.unknown", "a step of this machine", didYouMean(after, stepIds));
    }
    const set = (cursor.field("set")?.entries() ?? []).flatMap(([name, at]) => {
      const to = at.number();
      const variable = settable(name, at, build);
      return to === undefined || variable === undefined ? [] : [{ variable, to }];
    });
    return [{ id, ...(after === undefined ? {} : { after }), set }];
  });
}

/** An input or a world value, by name. */
export function settable(name: string, cursor: Cursor, build: Build): number | undefined {
  const variable = build.variableIndex.get(name);
  if (variable !== undefined) return variable;
  const known = build.variables.filter(({ role }) => role !== "knob").map(({ id }) => id);
  return cursor.refuse("sheet.input.unknown", "an input of this sheet", didYouMean(name, known), `"${name}"`);
}

/** Outputs that can be commanded singly; those of other variants are passed over. */
export function readServiceOutputs(merged: Merged, build: Build, issues: IssueList): Machine["serviceOutputs"] {
  const outputs: number[] = [];
  for (const [key, cursor] of merged.section("service-test", issues)) {
    if (key !== "outputs") continue;
    for (const name of cursor.words("a list of outputs")) {
      const variable = build.variableIndex.get(name);
      if (variable !== undefined && build.variables[variable]?.role === "output") outputs.push(variable);
    }
  }
  return outputs;
}
