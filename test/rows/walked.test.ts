// Rows of the trade's table walked to their end: the machine hides the row's fault and answers truly, the complaint is told
// as the row has it, and the first step of the plan is taken each time. The rows were chosen before any was walked.
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { type Random, seeded } from "../../src/core/chance/index.ts";
import { knownAnswers, readJob } from "../../src/core/ledger/index.ts";
import { combinations } from "../../src/core/sheet/index.ts";
import {
  billOf,
  byPlan,
  Hands,
  HiddenMachine,
  type History,
  type MachineType,
  NO_ERRORS,
  Truth,
  typeOf,
  withNumbers,
} from "../../src/core/trial/index.ts";
import { readShipped } from "./dryer.ts";
import { meters, must, shop } from "./jobs.ts";

const LONG = 300_000;

/** A remedy that is right cures: what is walked is the plan, not its luck. */
class Lucky implements Random {
  readonly #random: Random;
  readonly #cures: boolean;

  constructor(random: Random, cures = false) {
    this.#random = random;
    this.#cures = cures;
  }

  uniform(): number {
    return this.#cures ? 0 : this.#random.uniform();
  }

  normal(): number {
    return this.#random.normal();
  }

  pick(weights: ArrayLike<number>): number {
    return this.#random.pick(weights);
  }

  fork(label: string): Random {
    return new Lucky(this.#random.fork(label), label.startsWith("mend "));
  }
}

const types = new Map<string, MachineType>();

/** The machine of a row's job: its known variants, the commonest of the others. */
function typeIn(file: string): { readonly type: MachineType; readonly told: readonly string[] } {
  const job = must(readJob(readFileSync(`test/rows/${file}.yaml`, "utf8"), file));
  if (job.sheet.kind !== "family") throw new Error(`${file} is a job on a branch`);
  const { sheet, library } = readShipped(job.sheet.name);
  const [commonest] = combinations(sheet, knownAnswers(job));
  const key = `${job.sheet.name} ${JSON.stringify([...commonest.choice])}`;
  const type = types.get(key) ?? typeOf({ sheet, library, shop, meters }, commonest.choice, seeded("sheet"));
  types.set(key, type);
  const told = job.events.flatMap((event) => (event.kind === "told" ? event.answers.map(({ sign }) => sign) : []));
  return { type, told };
}

interface Walked {
  readonly history: History;
  readonly left: readonly string[];
  readonly wrong: number;
  /** What was done, in order, for whoever reads a failure. */
  readonly steps: readonly string[];
}

/** Follows the plan on a machine with this way of failing, always there, numbers as written. */
function walk(file: string, fault: string, severity = 0): Walked {
  const { type, told } = typeIn(file);
  const [{ machine, modes }] = type.truth.candidates;
  const mode = modes.find(({ id }) => id === fault);
  if (mode === undefined) throw new Error(`no ${fault} on ${machine.title}`);
  const drawn = {
    machine: withNumbers(
      machine,
      machine.parameters.map(({ rated }) => rated.nominal),
    ),
    faults: [{ ...mode, severities: [{ weight: 1, effects: mode.severities[severity].effects }] }],
    failsOn: 1,
  };
  const hidden = new HiddenMachine(new Truth(drawn, new Lucky(seeded(file)), NO_ERRORS, shop));
  const hands = new Hands(type.right, hidden);
  hands.ask(told, "told");
  const history = byPlan()(type.right, hands);
  const steps = history.events.map(({ id: _, line: __, ...body }) =>
    JSON.stringify(body, (___, value) => (value instanceof Map ? Object.fromEntries(value) : value)),
  );
  return { history, left: hidden.faults.map(({ id }) => id), wrong: billOf(history, machine, shop).wrong, steps };
}

/** Row, what is hidden, and which strength of it. */
const ROWS: readonly (readonly [string, string, number])[] = [
  ["t07-heater-open", "heater/all open", 0],
  ["t07-sagged", "heater/sagged to case", 0],
  ["t09-ntc-open", "ntc/open", 0],
  ["d10-heater-leak", "heater/leaks to case", 0],
  ["d15-drain-open", "drain-pump/coil open", 0],
  ["w08-heater-open", "heater/open", 0],
  ["w08-heater-leak", "heater/leaks to case", 0],
  ["w13-pump-seized", "drain-pump/seized", 0],
  // A thermistor's circuit that is open at a pin of the board's plug, or at the sensor.
  ["t09-ntc-open", "joint X6.1/open", 0],
  ["w09-ntc", "joint X6.2/open", 0],
  ["d13-ntc-open", "joint ntc.a/open", 0],
  // What hums and does not turn: rotor, capacitor, winding.
  ["t12-capacitor", "motor/bearing seized", 0],
  ["t12-capacitor", "motor/bearing stiff", 1],
  ["t12-capacitor", "run-cap/low value", 2],
  ["t12-capacitor", "motor/auxiliary winding open", 0],
];

/** Rows in which the machine trips the house: no look at the running machine, and no heater, before its path to earth was read. */
const TRIPS = new Set(["t07-sagged", "d10-heater-leak", "w08-heater-leak"]);

it.each(ROWS)(
  "%s with %s (%i) walked by the plan: mended and seen to work, no good part fitted",
  (file, fault, severity) => {
    const { history, left, wrong, steps } = walk(file, fault, severity);
    const how = steps.join("\n");
    expect(left, how).toEqual([]);
    expect(wrong, how).toBe(0);
    expect(history.ended, how).toBe("mended");
    if (TRIPS.has(file)) readBeforeRunAndBuy(history, how);
    const lastRepair = history.events.findLastIndex(({ kind }) => kind === "did");
    expect(
      history.events.slice(lastRepair).some(({ kind }) => kind === "seen"),
      how,
    ).toBe(true);
  },
  LONG,
);

function readBeforeRunAndBuy({ events }: History, how: string): void {
  const bought = events.findIndex((event) => event.kind === "did" && event.on === "heater");
  const before = events.slice(0, bought);
  const toEarth = (event: History["events"][number], of: string): boolean =>
    event.kind === "measured" &&
    event.set.state.kind === "plug out" &&
    event.readings.some(
      ({ quantity, from = "", to = "" }) =>
        from.startsWith(of) && (quantity === "insulation ohms" || to === "heater.case" || to === "plug.PE"),
    );
  expect(bought, how).toBeGreaterThan(0);
  expect(
    before.some((event) => toEarth(event, "heater.")),
    how,
  ).toBe(true);
  const runs = before.findIndex(
    (event) => event.kind === "seen" || (event.kind === "measured" && event.set.state.kind === "live"),
  );
  const insulated = before.findIndex((event) => toEarth(event, ""));
  expect(runs < 0 || (insulated >= 0 && insulated < runs), how).toBe(true);
}
