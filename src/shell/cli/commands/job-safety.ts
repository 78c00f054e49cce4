import { type CloseOut, type Closing, closeOutOf, closingOf } from "../../../core/ledger/index.ts";
import { readSafetyRules, type SafetyRules } from "../../../core/safety/index.ts";
import { coverageInWords, gateInWords } from "../../words/close-out.ts";
import { safetyInWords } from "../../words/safety.ts";
import { dataTexts } from "../files.ts";
import { openJob } from "../open-job.ts";
import { need, print, printJson, Refused } from "../outcome.ts";

/** The safety tests of a job, what the one at the plug did not reach, and whether the job may be closed. */
export function safetyOfJob(file: string, json: boolean): void {
  const worked = openJob(file);
  const closing = closingOf(worked, knownRules);
  const rules = chosenRules(closing, file);
  const out = closeOutOf(worked, closing, rules);
  if (json) printJson(forPrograms(closing, out));
  else
    print([
      ...testsInWords(closing, out, rules),
      "",
      ...(out.coverage === undefined ? [] : [...coverageInWords(out.coverage), ""]),
      ...gateInWords(out.gate),
    ]);
}

/** A rule set by its id, of those that ship. */
export function knownRules(id: string): SafetyRules | undefined {
  const text = dataTexts("safety").get(id);
  return text === undefined ? undefined : need(readSafetyRules(text, `${id}.yaml`));
}

/** The rule set that a job chose; none while it chose none. */
export function chosenRules({ safety }: Closing, file: string): SafetyRules | undefined {
  if (safety === undefined) return undefined;
  const id = safety.setting.rules;
  const rules = knownRules(id);
  if (rules !== undefined) return rules;
  const expected = [...dataTexts("safety").keys()].join(" | ");
  throw new Refused([
    {
      code: "safety.unknown-rules",
      severity: "error",
      file,
      at: ["events", "safety", "rules"],
      found: `"${id}"`,
      expected,
    },
  ]);
}

function testsInWords({ safety }: Closing, { verdict }: CloseOut, rules: SafetyRules | undefined): string[] {
  if (safety === undefined || verdict === undefined || rules === undefined)
    return ["No safety tests were begun: - safety: {rules: ..., class: ...} says by whose rules."];
  const { setting } = safety;
  const instruments = [...safety.taken.values()].flatMap(({ instrument }) => instrument ?? []);
  const calibrated = [...safety.taken.values()].flatMap((taken) => taken.calibrated ?? []);
  return safetyInWords(rules, verdict, {
    protection: setting.protection,
    hasSurgeSuppressors: setting.hasSurgeSuppressors,
    ...joined("instrument", instruments),
    ...joined("calibrated", calibrated),
  });
}

function joined<K extends string>(key: K, words: readonly string[]): { readonly [P in K]?: string } {
  return words.length === 0 ? {} : ({ [key]: [...new Set(words)].join(", ") } as { readonly [P in K]?: string });
}

function forPrograms({ safety, putBack, checks, proved }: Closing, { verdict, gate, coverage }: CloseOut) {
  return {
    rules: safety?.setting.rules ?? null,
    tests: verdict === undefined ? null : verdictForPrograms(verdict),
    coverage: coverage ?? null,
    putBack,
    checks: Object.fromEntries(checks),
    proved: proved.map(({ kind, says, ...one }) => ({ kind, of: says, says: "proof" in one ? one.proof.says : null })),
    mayClose: gate.isOpen,
    reasons: gate.reasons,
  };
}

/** A verdict without the sets and maps that JSON cannot hold. */
export function verdictForPrograms({ says, lines, next }: NonNullable<CloseOut["verdict"]>) {
  return {
    says,
    next: next ?? null,
    lines: lines.map(({ test, says: word, reading, limit, row, probability, why, instead }) => ({
      test,
      says: word,
      measured: reading === undefined || "above" in reading ? null : reading.value.value,
      uncertainty: reading === undefined || "above" in reading ? null : Object.fromEntries(reading.value.parts),
      above: reading !== undefined && "above" in reading ? reading.above : null,
      limit: limit ?? null,
      clause: row?.clause ?? null,
      source: row?.source ?? null,
      probability: probability ?? null,
      why: why ?? null,
      instead: instead ?? null,
    })),
  };
}
