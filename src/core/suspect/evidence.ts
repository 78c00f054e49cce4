import { accept, type Checked, type Issue, IssueList } from "../issue/index.ts";
import { logAbove, logBelow, logBetween, logDensity, sigmasFrom } from "./normal.ts";
import { add, addDouble, negate, type Twofold, value, ZERO } from "./twofold.ts";

/** What `table suspects` prints: odds of named hypotheses after readings, and the log chance of the readings. */
export interface EvidenceAnswer {
  readonly logEvidence: number;
  readonly posterior: Readonly<Record<string, number>>;
  readonly logPosterior: Readonly<Record<string, number>>;
}

type Reading =
  | { readonly kind: "value"; readonly y: number }
  | { readonly kind: "above" | "below"; readonly limit: number }
  | { readonly kind: "interval"; readonly lo: number; readonly hi: number };

/** One reading with what each hypothesis expects of it, in the order of the hypotheses. */
interface ExpectedReading {
  readonly reading: Reading;
  readonly mean: readonly number[];
  readonly sigma: readonly number[];
}

interface Evidence {
  readonly ids: readonly string[];
  readonly logPrior: readonly number[];
  readonly readings: readonly ExpectedReading[];
}

/**
 * Odds of hypotheses from readings with normal errors (the form `faultwright-evidence/1`): Bayes' rule, in logarithms.
 *
 * Values count by density, `above`, `below` and `interval` by probability; log priors are normalised here; no slips.
 * Log chances are summed twofold, so odds hold to 1e-12 however small every one of them is.
 *
 * @param json parsed JSON of that form
 * @returns the odds by hypothesis id, their natural logarithms, and the natural log of the evidence
 */
export function askEvidence(json: unknown): Checked<EvidenceAnswer> {
  const read = readEvidence(json);
  if (!read.ok) return read;
  const { ids, logPrior, readings } = read.value;

  const prior = logPrior.map((log): Twofold => ({ hi: log, lo: 0 }));
  const chances = ids.map((_, h) => readings.reduce((sum, reading) => add(sum, logChance(reading, h)), ZERO));
  const joint = ids.map((_, h) => add(prior[h], chances[h]));

  const before = logSum(prior);
  const after = logSum(joint);
  if (!Number.isFinite(after.hi)) {
    return { ok: false, issues: [impossible()] };
  }
  const logPosterior = joint.map((log) => value(add(log, negate(after))));
  const answer: EvidenceAnswer = {
    logEvidence: logEvidence(
      chances.map(value),
      prior.map((log) => value(add(log, negate(before)))),
      value(add(after, negate(before))),
    ),
    posterior: Object.fromEntries(ids.map((id, h) => [id, Math.exp(logPosterior[h])])),
    logPosterior: Object.fromEntries(ids.map((id, h) => [id, logPosterior[h]])),
  };
  return accept(answer, read.warnings);
}

function logChance({ reading, mean, sigma }: ExpectedReading, h: number): Twofold {
  const m = mean[h];
  const s = sigma[h];
  switch (reading.kind) {
    case "value":
      return logDensity(sigmasFrom(m, reading.y, s), s);
    case "above":
      return logAbove(sigmasFrom(m, reading.limit, s));
    case "below":
      return logBelow(sigmasFrom(m, reading.limit, s));
    case "interval":
      return logBetween(
        sigmasFrom(m, reading.lo, s),
        sigmasFrom(m, reading.hi, s),
        value(sigmasFrom(reading.lo, reading.hi, s)),
      );
  }
}

/** ln Σ exp, twofold; the greatest counts as 1 beside the rest, so that odds next to 1 keep the digits of their logarithm. */
function logSum(logs: readonly Twofold[]): Twofold {
  let top = 0;
  for (const [h, log] of logs.entries()) {
    if (log.hi > logs[top].hi || (log.hi === logs[top].hi && log.lo > logs[top].lo)) top = h;
  }
  const greatest = logs[top];
  if (!Number.isFinite(greatest.hi)) return greatest;
  let rest = 0;
  for (const [h, log] of logs.entries()) if (h !== top) rest += Math.exp(value(add(log, negate(greatest))));
  return addDouble(greatest, Math.log1p(rest));
}

/** Where all chances are near 1 the log of their mean is taken about 1, so that it keeps its relative digits. */
function logEvidence(chances: readonly number[], logPrior: readonly number[], direct: number): number {
  if (chances.some((log) => Math.abs(log) > 0.1)) return direct;
  let mean = 0;
  for (const [h, log] of chances.entries()) mean += Math.exp(logPrior[h]) * Math.expm1(log);
  return Math.log1p(mean);
}

function impossible(): Issue {
  return {
    code: "evidence.impossible",
    severity: "error",
    at: ["readings"],
    found: "readings that every hypothesis puts beyond 1e150 sigmas",
    expected: "at least one hypothesis under which they can happen",
  };
}

function readEvidence(json: unknown): Checked<Evidence> {
  const issues = new IssueList();
  const check = new Checker(issues);
  const top = check.record(json, []);
  if (top === undefined) return issues.conclude(() => unreachable());
  check.keys(top, ["format", "hypotheses", "readings"], []);
  if (top.format !== FORMAT) check.complain("evidence.format", ["format"], top.format, `"${FORMAT}"`);

  const ids: string[] = [];
  const logPrior: number[] = [];
  for (const [i, item] of check.list(top.hypotheses, ["hypotheses"]).entries()) {
    const at = ["hypotheses", i];
    const hypothesis = check.record(item, at);
    if (hypothesis === undefined) continue;
    check.keys(hypothesis, ["id", "logPrior"], at);
    const id = hypothesis.id;
    if (typeof id !== "string" || id === "") check.complain("evidence.id", [...at, "id"], id, "a name");
    else if (ids.includes(id)) check.complain("evidence.id", [...at, "id"], id, "each name once");
    else {
      ids.push(id);
      logPrior.push(check.number(hypothesis.logPrior, [...at, "logPrior"]));
    }
  }
  if (ids.length === 0) check.complain("evidence.hypotheses", ["hypotheses"], top.hypotheses, "at least one");

  const readings = check
    .list(top.readings, ["readings"])
    .flatMap((item, i) => readReading(check, item, ["readings", i], ids) ?? []);
  return issues.conclude(() => ({ ids, logPrior, readings }));
}

const FORMAT = "faultwright-evidence/1";

function readReading(check: Checker, item: unknown, at: Path, ids: readonly string[]): ExpectedReading | undefined {
  const record = check.record(item, at);
  if (record === undefined) return undefined;
  const fields = FIELDS.get(record.kind);
  if (fields === undefined) {
    check.complain("evidence.kind", [...at, "kind"], record.kind, '"value", "above", "below" or "interval"');
    return undefined;
  }
  check.keys(record, ["kind", ...fields, "mean", "sigma"], at);
  const numbers = fields.map((field) => check.number(record[field], [...at, field]));
  const [first = Number.NaN, second = Number.NaN] = numbers;
  if (fields.length === 2 && first >= second) {
    check.complain("evidence.interval", [...at, "hi"], second, `a number above "lo" (${first})`);
  }
  const mean = check.byHypothesis(record.mean, [...at, "mean"], ids);
  const sigma = check.byHypothesis(record.sigma, [...at, "sigma"], ids);
  for (const [h, s] of sigma.entries()) {
    if (s <= 0) check.complain("evidence.sigma", [...at, "sigma", ids[h] ?? ""], s, "a number above 0");
  }
  const kind = record.kind;
  if (kind === "value") return { reading: { kind, y: first }, mean, sigma };
  if (kind === "above" || kind === "below") return { reading: { kind, limit: first }, mean, sigma };
  return { reading: { kind: "interval", lo: first, hi: second }, mean, sigma };
}

const FIELDS: ReadonlyMap<unknown, readonly string[]> = new Map([
  ["value", ["y"]],
  ["above", ["limit"]],
  ["below", ["limit"]],
  ["interval", ["lo", "hi"]],
]);

type Path = readonly (string | number)[];

/** Takes JSON apart; what is not as it should be becomes an issue naming its field. */
class Checker {
  readonly #issues: IssueList;

  constructor(issues: IssueList) {
    this.#issues = issues;
  }

  complain(code: string, at: Path, found: unknown, expected: string): void {
    this.#issues.add({ code, severity: "error", at, found: found === undefined ? "nothing" : shown(found), expected });
  }

  warn(code: string, at: Path, key: string, expected: string): void {
    const found = key === "" ? "an empty key" : key;
    this.#issues.add({ code, severity: "warning", at, found, expected, hint: "it is not looked at" });
  }

  record(json: unknown, at: Path): Readonly<Record<string, unknown>> | undefined {
    if (typeof json === "object" && json !== null && !Array.isArray(json)) return { ...json };
    this.complain("evidence.shape", at, json, "an object { ... }");
    return undefined;
  }

  list(json: unknown, at: Path): readonly unknown[] {
    if (Array.isArray(json)) return json;
    this.complain("evidence.shape", at, json, "a list [ ... ]");
    return [];
  }

  number(json: unknown, at: Path): number {
    if (typeof json === "number" && Number.isFinite(json)) return json;
    this.complain("evidence.number", at, json, "a finite number");
    return Number.NaN;
  }

  keys(record: Readonly<Record<string, unknown>>, known: readonly string[], at: Path): void {
    for (const key of Object.keys(record)) {
      if (!known.includes(key)) this.warn("evidence.field", [...at, key], key, `only ${known.join(", ")}`);
    }
  }

  /** One number for each hypothesis, in their order. */
  byHypothesis(json: unknown, at: Path, ids: readonly string[]): readonly number[] {
    const record = this.record(json, at);
    if (record === undefined) return [];
    for (const key of Object.keys(record)) {
      if (!ids.includes(key)) this.warn("evidence.hypothesis", [...at, key], key, "a hypothesis of this file");
    }
    return ids.map((id) => this.number(Object.hasOwn(record, id) ? record[id] : undefined, [...at, id]));
  }
}

function shown(json: unknown): string {
  if (typeof json === "number") return String(json);
  return (JSON.stringify(json) ?? typeof json).slice(0, 60);
}

function unreachable(): never {
  throw new TypeError("evidence: an issue was expected here");
}
