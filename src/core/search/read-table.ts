import { type Checked, IssueList } from "../issue/index.ts";
import type { PlanTable, TableCause, TableGroup, TableTest } from "./table.ts";

const FORMAT = "faultwright-table/1";
/** Chances written with three digits may miss 1 by this much: they are then taken in proportion, and a warning says so. */
const ROUNDING = 1e-3 * (1 + 1e-9);
/** Sums as far from 1 as this are rounding of the last digit of a double, and not worth a word. */
const SILENT = 1e-9;
/** Largest cost: beyond it the digits of a sum would say nothing about a cost of 1. */
const MOST_COST = 1e12;
/** Largest tables: far beyond what can be planned well, small enough to be refused before memory is. */
const MOST = { causes: 400, groups: 400, tests: 400, outcomes: 100 };

type Path = readonly (string | number)[];
type Fields = { readonly [key: string]: unknown };

/**
 * Reads the form `faultwright-table/1` from parsed JSON; every wrong field is an issue, all of them at once.
 *
 * Chances that miss 1 by rounding (up to 0.001) are scaled to 1 with a warning; fields not known are a warning.
 */
export function readTable(json: unknown): Checked<PlanTable> {
  return new TableReader().read(json);
}

class TableReader {
  readonly #issues = new IssueList();

  read(json: unknown): Checked<PlanTable> {
    const table = this.#fields(json, [], ["format", "causes", "groups", "tests", "stop"]);
    if (table !== undefined && table.format !== FORMAT)
      this.#refuse("table.format", ["format"], table.format, JSON.stringify(FORMAT));
    const groups = table === undefined ? [] : this.#list(table.groups ?? [], ["groups"], MOST.groups);
    const readGroups = groups.map((group, g) => this.#group(group, ["groups", g]));
    const groupIndex = this.#index(readGroups, "groups");
    const causes = table === undefined ? [] : this.#list(table.causes, ["causes"], MOST.causes);
    if (table !== undefined && Array.isArray(table.causes) && causes.length === 0)
      this.#refuse("table.empty", ["causes"], [], "at least one cause");
    const readCauses = causes.map((cause, c) => this.#cause(cause, ["causes", c], groupIndex));
    const causeIndex = this.#index(readCauses, "causes");
    const priors = this.#proportions(
      readCauses.map((cause) => cause.prior),
      ["causes"],
      "priors",
    );
    const tests = table === undefined ? [] : this.#list(table.tests ?? [], ["tests"], MOST.tests);
    const readTests = tests.map((test, t) => this.#test(test, ["tests", t], groupIndex, causeIndex));
    this.#index(readTests, "tests");
    const stop = table?.stop === undefined || table.stop === null ? undefined : this.#stop(table.stop);
    return this.#issues.conclude(() => ({
      causes: readCauses.map((cause, c) => ({ ...cause, prior: priors[c] ?? cause.prior })),
      groups: readGroups,
      tests: readTests,
      remedies: [],
      stop,
    }));
  }

  #group(json: unknown, at: Path): TableGroup {
    const group = this.#fields(json, at, ["id", "cost"]);
    return { id: this.#id(group, at), cost: this.#cost(group, at) };
  }

  #cause(json: unknown, at: Path, groups: ReadonlyMap<string, number>): TableCause {
    const cause = this.#fields(json, at, ["id", "prior", "repair"]);
    const id = this.#id(cause, at);
    const prior = cause === undefined ? 0 : this.#chance(cause.prior, [...at, "prior"]);
    const repairAt = [...at, "repair"];
    const repair = cause === undefined ? undefined : this.#fields(cause.repair, repairAt, ["cost", "group"]);
    const repairGroup = this.#groupOf(repair, repairAt, groups);
    return { id, prior, repairCost: this.#cost(repair, repairAt), repairGroup };
  }

  #test(json: unknown, at: Path, groups: ReadonlyMap<string, number>, causes: ReadonlyMap<string, number>): TableTest {
    const test = this.#fields(json, at, ["id", "cost", "group", "outcomes", "chance"]);
    const id = this.#id(test, at);
    const cost = this.#cost(test, at);
    const group = this.#groupOf(test, at, groups);
    const chance = Array.from({ length: causes.size }, (): readonly number[] => []);
    if (test === undefined) return { id, cost, group, chance };
    const outcomes = test.outcomes;
    const countIsGood =
      typeof outcomes === "number" && Number.isInteger(outcomes) && outcomes >= 1 && outcomes <= MOST.outcomes;
    if (!countIsGood)
      this.#refuse("table.outcomes", [...at, "outcomes"], outcomes, `a whole number from 1 to ${MOST.outcomes}`);
    const rowsAt = [...at, "chance"];
    const rows = this.#object(test.chance, rowsAt);
    if (rows === undefined) return { id, cost, group, chance };
    for (const key of Object.keys(rows))
      if (!causes.has(key)) this.#refuse("table.unknown", [...rowsAt, key], key, "the id of a cause");
    for (const [cause, c] of causes) {
      const rowAt = [...rowsAt, cause];
      const row = Object.hasOwn(rows, cause) ? rows[cause] : undefined;
      chance[c] = this.#row(row, rowAt, countIsGood ? outcomes : undefined);
    }
    return { id, cost, group, chance };
  }

  #row(json: unknown, at: Path, outcomes: number | undefined): readonly number[] {
    if (!Array.isArray(json) || (outcomes !== undefined && json.length !== outcomes)) {
      this.#refuse("table.row", at, json, `a list of ${outcomes ?? "as many"} chances, one an outcome`);
      return [];
    }
    const row = json.map((chance: unknown, o) => this.#chance(chance, [...at, o]));
    return this.#proportions(row, at, "chances");
  }

  #stop(json: unknown): number {
    return this.#cost(this.#fields(json, ["stop"], ["cost"]), ["stop"]);
  }

  /** The numbers scaled to sum to 1, or unchanged with an issue where they are too far from it. */
  #proportions(numbers: readonly number[], at: Path, what: string): readonly number[] {
    if (numbers.length === 0 || numbers.some((number) => Number.isNaN(number))) return numbers;
    const sum = numbers.reduce((total, number) => total + number, 0);
    const off = Math.abs(sum - 1);
    if (off > ROUNDING) this.#refuse("table.sum", at, `${what} that sum to ${sum}`, "a sum of 1");
    else if (off > SILENT)
      this.#warn("table.rounded", at, `${what} that sum to ${sum}`, "a sum of 1; they are taken in proportion");
    return off > ROUNDING || off === 0 ? numbers : numbers.map((number) => number / sum);
  }

  #groupOf(fields: Fields | undefined, at: Path, groups: ReadonlyMap<string, number>): number {
    const group = fields?.group;
    if (group === undefined || group === null) return -1;
    const index = typeof group === "string" ? groups.get(group) : undefined;
    if (index === undefined) this.#refuse("table.unknown", [...at, "group"], group, "the id of a group, or null");
    return index ?? -1;
  }

  #id(fields: Fields | undefined, at: Path): string {
    const id = fields?.id;
    if (typeof id === "string" && id !== "") return id;
    if (fields !== undefined) this.#refuse("table.id", [...at, "id"], id, "a name");
    return "";
  }

  #cost(fields: Fields | undefined, at: Path): number {
    const cost = fields?.cost;
    if (typeof cost === "number" && cost >= 0 && cost <= MOST_COST) return cost;
    if (fields !== undefined) this.#refuse("table.cost", [...at, "cost"], cost, `a number from 0 to ${MOST_COST}`);
    return 0;
  }

  #chance(json: unknown, at: Path): number {
    if (typeof json === "number" && json >= 0 && json <= 1) return json;
    this.#refuse("table.chance", at, json, "a chance from 0 to 1");
    return Number.NaN;
  }

  #index(items: readonly { readonly id: string }[], list: string): Map<string, number> {
    const index = new Map<string, number>();
    items.forEach(({ id }, position) => {
      if (index.has(id) && id !== "") this.#refuse("table.twice", [list, position, "id"], id, "an id used once");
      else if (id !== "") index.set(id, position);
    });
    return index;
  }

  #list(json: unknown, at: Path, most: number): readonly unknown[] {
    if (!Array.isArray(json)) this.#refuse("table.shape", at, json, "a list");
    else if (json.length > most) this.#refuse("table.size", at, `${json.length} of them`, `at most ${most}`);
    else return json;
    return [];
  }

  #fields(json: unknown, at: Path, known: readonly string[]): Fields | undefined {
    const fields = this.#object(json, at);
    for (const key of Object.keys(fields ?? {}))
      if (!known.includes(key))
        this.#warn("table.field", [...at, key], key, `one of ${known.join(", ")}; it is not read`);
    return fields;
  }

  #object(json: unknown, at: Path): Fields | undefined {
    if (typeof json === "object" && json !== null && !Array.isArray(json)) return json as Fields;
    this.#refuse("table.shape", at, json, at.length === 0 ? `an object of the form ${FORMAT}` : "an object");
    return undefined;
  }

  #refuse(code: string, at: Path, found: unknown, expected: string): void {
    this.#issues.add({ code, severity: "error", at, found: shown(found), expected });
  }

  #warn(code: string, at: Path, found: unknown, expected: string): void {
    this.#issues.add({ code, severity: "warning", at, found: shown(found), expected });
  }
}

/** The found value as it stood, cut to a line. */
function shown(found: unknown): string {
  if (found === undefined) return "nothing";
  if (found === "") return "an empty text";
  const text = typeof found === "string" || typeof found === "number" ? String(found) : (JSON.stringify(found) ?? "");
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}
