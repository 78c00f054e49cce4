// npm run soak [-- --count 100000 --seed 1 --cores 2 --form table --only 17 --out FOLDER] — mutated files of every form, on
// all cores. Each mutant is known by form, seed and number; one that fails is written to a folder with a line that runs it
// again. A mutant that takes longer than its budget, or kills its process, is a failure like any other.
import { type ChildProcess, fork } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { availableParallelism } from "node:os";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { forms, judgeMutant, mutantOf } from "./mutant.ts";

/** Far above what the dearest mutant takes, on a machine that has other work too. */
const BUDGET_SECONDS = 120;
/** Mutants given to a process in one go. */
const PORTION = 250;
const MOST_MEGABYTES = 1500;

const { values } = parseArgs({
  options: {
    count: { type: "string", default: "100000" },
    seed: { type: "string", default: "1" },
    cores: { type: "string", default: String(availableParallelism()) },
    form: { type: "string" },
    only: { type: "string" },
    out: { type: "string", default: "soak-failures" },
    child: { type: "boolean", default: false },
  },
});
const seed = whole(values.seed);

/** Mutants `from` to `to` (out) of one form. */
interface Portion {
  readonly form: string;
  readonly from: number;
  readonly to: number;
}

type Said =
  | { readonly says: "begun"; readonly number: number }
  | { readonly says: "done"; readonly number: number; readonly taken: boolean; readonly milliseconds: number }
  | { readonly says: "failed"; readonly number: number; readonly failure: string }
  | { readonly says: "portion done" };

class Tally {
  count = 0;
  taken = 0;
  milliseconds = 0;
  most = 0;
  failures = 0;
}

if (values.child) beChild();
else if (values.only !== undefined) runOne(whole(values.only));
else await soak();

function whole(text: string): number {
  const number = Number(text);
  if (!Number.isInteger(number) || number < 0) throw new RangeError(`a whole number was expected, not ${text}`);
  return number;
}

function formNamed(name: string | undefined) {
  const form = forms.find((one) => one.name === name);
  if (form === undefined) throw new RangeError(`--form is one of ${forms.map((one) => one.name).join(", ")}`);
  return form;
}

function runOne(number: number): void {
  const mutant = mutantOf(formNamed(values.form), seed, number);
  console.log(`${mutant.file}: ${mutant.how}`);
  const { taken, milliseconds, failure } = judgeMutant(mutant);
  console.log(failure ?? `${taken ? "taken" : "refused"} in ${milliseconds.toFixed(1)} ms`);
  if (failure !== undefined) process.exitCode = 1;
}

function beChild(): void {
  const tell = (said: Said): void => {
    process.send?.(said);
  };
  process.on("message", ({ form: name, from, to }: Portion) => {
    const form = formNamed(name);
    for (let number = from; number < to; number++) {
      tell({ says: "begun", number });
      const { taken, milliseconds, failure } = judgeMutant(mutantOf(form, seed, number));
      tell({ says: "done", number, taken, milliseconds });
      if (failure !== undefined) tell({ says: "failed", number, failure });
    }
    tell({ says: "portion done" });
  });
}

/** Shares the mutants out over child processes until none are left; fails when any mutant did. */
async function soak(): Promise<void> {
  const wanted = values.form === undefined ? forms : [formNamed(values.form)];
  const weight = wanted.reduce((sum, form) => sum + form.weight, 0);
  const tallies = new Map(wanted.map((form) => [form.name, new Tally()]));
  const portions = wanted.flatMap((form): Portion[] => {
    const count = Math.ceil((whole(values.count) * form.weight) / weight);
    return Array.from({ length: Math.ceil(count / PORTION) }, (_, n) => ({
      form: form.name,
      from: n * PORTION,
      to: Math.min(count, (n + 1) * PORTION),
    }));
  });
  const begun = performance.now();
  await Promise.all(Array.from({ length: Math.max(1, whole(values.cores)) }, () => workOff(portions, tallies)));
  console.log(`${Math.round((performance.now() - begun) / 1000)} s in all`);
  for (const [name, tally] of tallies) {
    const mean = tally.milliseconds / Math.max(1, tally.count);
    console.log(
      `${name.padEnd(10)} ${String(tally.count).padStart(6)} mutants, ${tally.taken} taken, ${tally.count - tally.taken} refused, ${tally.failures} failed; ${mean.toFixed(1)} ms each, most ${Math.round(tally.most)} ms`,
    );
  }
  const failures = [...tallies.values()].reduce((sum, tally) => sum + tally.failures, 0);
  if (failures > 0) process.exitCode = 1;
}

/** One child after another works portions off; a child that hangs or dies gives its portion back, less the mutant it died of. */
async function workOff(portions: Portion[], tallies: ReadonlyMap<string, Tally>): Promise<void> {
  let child: ChildProcess | undefined;
  for (let portion = portions.shift(); portion !== undefined; portion = portions.shift()) {
    child ??= fork(fileURLToPath(import.meta.url), ["--child", "--seed", String(seed)], {
      execArgv: [...process.execArgv, `--max-old-space-size=${MOST_MEGABYTES}`],
    });
    const tally = tallies.get(portion.form) ?? new Tally();
    const stuck = await oneOff(child, portion, tally);
    if (stuck === undefined) continue;
    child = undefined;
    tally.count++;
    report(portion.form, stuck.number, stuck.failure, tally);
    if (stuck.number + 1 < portion.to) portions.unshift({ ...portion, from: stuck.number + 1 });
  }
  child?.disconnect();
}

/** Works one portion off; resolves with the mutant that the child hung on or died of, if it did. */
function oneOff(
  child: ChildProcess,
  portion: Portion,
  tally: Tally,
): Promise<{ number: number; failure: string } | undefined> {
  return new Promise((resolve) => {
    let number = portion.from;
    let clock: NodeJS.Timeout | undefined;
    const end = (failure?: string): void => {
      clearTimeout(clock);
      child.off("message", hear);
      child.off("exit", died);
      if (failure !== undefined) child.kill("SIGKILL");
      resolve(failure === undefined ? undefined : { number, failure });
    };
    const died = (code: number | null, signal: string | null): void => end(`its process ended with ${code ?? signal}`);
    const hear = (said: Said): void => {
      if (said.says === "portion done") end();
      else if (said.says === "failed") report(portion.form, said.number, said.failure, tally);
      else if (said.says === "begun") {
        number = said.number;
        clearTimeout(clock);
        clock = setTimeout(() => end(`took more than ${BUDGET_SECONDS} s`), BUDGET_SECONDS * 1000);
      } else {
        tally.count++;
        if (said.taken) tally.taken++;
        tally.milliseconds += said.milliseconds;
        tally.most = Math.max(tally.most, said.milliseconds);
      }
    };
    child.on("message", hear);
    child.on("exit", died);
    child.send(portion);
  });
}

function report(form: string, number: number, failure: string, tally: Tally): void {
  tally.failures++;
  const mutant = mutantOf(formNamed(form), seed, number);
  const again = `npm run soak -- --form ${form} --seed ${seed} --only ${number}`;
  mkdirSync(values.out, { recursive: true });
  writeFileSync(`${values.out}/${form}-${seed}-${number}.txt`, mutant.text);
  writeFileSync(
    `${values.out}/${form}-${seed}-${number}.why`,
    `${mutant.file}: ${mutant.how}\n${failure}\nrun again: ${again}\n`,
  );
  console.log(
    `FAILED ${form} ${number} (${mutant.file}: ${mutant.how}): ${failure.split("\n", 2).join(" ")}\n  again: ${again}`,
  );
}
