import { readdirSync, readFileSync } from "node:fs";
import { seeded } from "../../src/core/chance/index.ts";
import { type Mode, modesOf } from "../../src/core/fault/index.ts";
import { type Job, knownAnswers, knownDifferences, readJob } from "../../src/core/ledger/index.ts";
import type { Quantity, Shown } from "../../src/core/meter/index.ts";
import { instrumentFor } from "../../src/core/plan/index.ts";
import { Predictor, probeOf } from "../../src/core/predict/index.ts";
import { assemble, combinations, type Sheet, slotWords } from "../../src/core/sheet/index.ts";
import type { Observation } from "../../src/core/sign/index.ts";
import { HiddenMachine, NO_ERRORS, Truth, withNumbers } from "../../src/core/trial/index.ts";
import { readShipped } from "../rows/dryer.ts";
import { meters, must, shop } from "../rows/jobs.ts";
import { demoFaults, type HiddenMode } from "./demo-faults.ts";

const examples = new URL("../../examples/", import.meta.url);

/** Names of the demonstration's jobs: those of their files. */
export const demoJobs: readonly string[] = readdirSync(examples)
  .filter((file) => file.endsWith(".yaml"))
  .map((file) => file.replace(".yaml", ""));

/** A job of the demonstration, as its file tells it. */
export function demoJob(name: string): Job {
  return must(readJob(readFileSync(new URL(`${name}.yaml`, examples), "utf8"), name));
}

/** The machine of a job of the demonstration with its hidden fault: the commonest that the job's answers allow. */
export class DemoMachine {
  readonly hidden: HiddenMachine;
  readonly complaint: string;
  readonly #sheet: Sheet;

  /** @param name  of the job's file, without its ending */
  constructor(name: string) {
    const job = demoJob(name);
    const fault = demoFaults[name];
    if (fault === undefined || job.sheet.kind !== "family") throw new Error(`no fault is written for ${name}`);
    const { sheet, library } = readShipped(job.sheet.name);
    const types = combinations(sheet, knownAnswers(job));
    const commonest = types.reduce((best, one) => (one.weight > best.weight ? one : best));
    const machine = must(assemble(sheet, library, commonest.choice, knownDifferences(job)));
    const modes = modesOf(machine);
    const faults = fault.modes.map((mode) => hiddenMode(modes, mode));
    const nominal = machine.parameters.map(({ rated }) => rated.nominal);
    const exact = withNumbers(machine, nominal);
    const drawn = { machine: exact, faults, failsOn: fault.failsOn ?? 1 };
    const truth = new Truth(drawn, seeded(name), NO_ERRORS, shop, new Predictor(exact, faults));
    this.hidden = new HiddenMachine(truth);
    this.complaint = job.complaint;
    this.#sheet = sheet;
  }

  /** What an insulation tester finds between both poles of the plug, joined, and earth; Infinity where nothing is found. */
  insulationOhms(): number {
    const state = { kind: "dead", pulled: [], freed: [], hands: new Map() } as const;
    const ends = { from: "plug.L", joinedWith: ["plug.N"], to: "plug.PE" };
    const probe = probeOf({ quantity: "insulation ohms", ...ends, state });
    const shown = this.hidden.read(probe, instrumentFor(probe.quantity, shop.bag, meters), "insulation");
    return shown?.kind === "value" ? shown.value : Number.POSITIVE_INFINITY;
  }

  /**
   * What is answered to a question of the app, in the words that a person types or presses; undefined where this machine has
   * no such thing.
   *
   * @param run  name of the run it is seen in
   */
  answered(asked: Observation, run: string): string | undefined {
    switch (asked.kind) {
      case "sign":
        return this.hidden.answer(asked.sign, asked.witness, run);
      case "look":
        return this.hidden.look(asked.at, asked.mode);
      case "answer": {
        const variant = this.hidden.truth.machine.choice.get(asked.slot) ?? "";
        return slotWords(this.#sheet).get(asked.slot)?.looks.get(variant);
      }
      case "count": {
        const good = this.hidden.count(asked.probe, asked.of);
        return good === undefined ? undefined : `${good} of ${asked.of}`;
      }
      case "reading": {
        const shown = this.hidden.read(asked.probe, asked.meter, run);
        return shown === undefined ? undefined : typed(shown, asked.probe.quantity);
      }
    }
  }
}

function hiddenMode(modes: readonly Mode[], { id, strength = 0 }: HiddenMode): Mode {
  const mode = modes.find((one) => one.id === id);
  const severity = mode?.severities[strength];
  if (mode === undefined || severity === undefined) throw new Error(`the machine has no ${id} of that strength`);
  return { ...mode, severities: [{ ...severity, weight: 1 }] };
}

const LARGE: readonly (readonly [string, number])[] = [
  ["G", 1e9],
  ["M", 1e6],
  ["k", 1e3],
];

/** What a display shows as a person types it: `12.55k`, `2u`, `OL`. */
function typed(shown: Shown, quantity: Quantity): string {
  if (shown.kind === "over limit") return "OL";
  if (shown.kind !== "value") throw new Error(`a meter shows a value or OL, not ${shown.kind}`);
  const { value } = shown;
  const plain = (number: number) => String(Number(number.toPrecision(6)));
  if (quantity === "farads") return `${plain(value * 1e6)}u`;
  const [prefix, of] = (quantity.includes("ohms") ? LARGE.find(([, at]) => value >= at) : undefined) ?? ["", 1];
  return `${plain(value / of)}${prefix}`;
}
