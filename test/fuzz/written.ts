import { accountOf, foldJob, knownDifferences, readJob } from "../../src/core/ledger/index.ts";
import { displayed, limitOf, readMeter, shownBy, standardUncertaintyOf } from "../../src/core/meter/index.ts";
import { instantiate, readKind } from "../../src/core/part/index.ts";
import { nextSteps } from "../../src/core/plan/index.ts";
import { priceOf, readShop, stopCost, workPrice } from "../../src/core/remedy/index.ts";
import { DeadBench, openRunner } from "../../src/core/run/index.ts";
import {
  assemble,
  checkSheet,
  combinations,
  type Machine,
  readHouse,
  readSheet,
  type Sheet,
} from "../../src/core/sheet/index.ts";
import { caseOn, type ForeseenCase } from "../../src/core/suspect/index.ts";
import { textsIn, writtenFiles } from "../house/forms.ts";
import { shippedLibrary, shippedMachine } from "../machines/shipped.ts";
import { type Form, hold, type Judged } from "./form.ts";

const library = shippedLibrary();
const written = writtenFiles();

const kind: Form = {
  name: "kind",
  files: written.kind,
  weight: 12,
  judge: (text, file) => {
    const read = readKind(text, file);
    if (!read.ok) return { refused: read.issues };
    const made = instantiate(read.value, new Map(), { at: [] });
    if (!made.ok) return { refused: made.issues };
    const shares = made.value.modes.map((mode) => mode.share);
    hold(
      shares.every((share) => share >= 0),
      `shares ${shares.join()}`,
    );
    return { told: { shares, pins: made.value.pins, elements: made.value.elements.length } };
  },
};

const sheet: Form = {
  name: "sheet",
  files: written.sheet,
  weight: 2,
  judge: (text, file, round) => {
    const read = readSheet(text, file, library);
    if (!read.ok) return { refused: read.issues };
    const allowed = combinations(read.value, new Map());
    const one = allowed[round % Math.max(1, allowed.length)];
    if (one === undefined) return { told: "no way to fill its slots" };
    const machine = assemble(read.value, library, one.choice);
    if (!machine.ok) return { refused: machine.issues };
    if (round % 40 === 0 && allowed.length < 20) checkSheet(read.value, library);
    return { told: round % 4 === 0 ? runOf(machine.value) : machine.value.elements.length };
  },
};

/** What a good machine shows: watts in each picture, and ohms between points next to one another in the list. */
function runOf(machine: Machine): unknown {
  const runner = openRunner(machine);
  const watts = [...runner.healthy.pictures].map(([key, picture]) => {
    const [member] = picture.members;
    return member === undefined ? 0 : runner.restore([], member, key).plugWatts();
  });
  const bench = new DeadBench(machine).prepare([], { pulled: [], freed: [], hands: new Map() });
  const ohms = machine.points.slice(1, 60).map((point, n) => {
    const shown = bench.ohms(machine.points[n].node, point.node);
    hold(shown >= 0, `${shown} ohms from ${machine.points[n].id} to ${point.id}`);
    return shown === Number.POSITIVE_INFINITY ? "OL" : shown;
  });
  return { watts, ohms, said: runner.healthy.said };
}

const house: Form = {
  name: "house",
  files: textsIn("data/houses"),
  weight: 1.5,
  judge: (text, file) => {
    const read = readHouse(text, file);
    if (!read.ok) return { refused: read.issues };
    const houses = new Map([[read.value.name, read.value]]);
    const branch = {
      format: "faultwright-sheet/1",
      sheet: "branch",
      supply: { house: read.value.name, class: "I" },
      branch: ["switch", "heater 2000 W"],
    };
    const onIt = readSheet(JSON.stringify(branch), "branch.yaml", { ...library, houses });
    if (!onIt.ok) return { refused: onIt.issues };
    const machine = assemble(onIt.value, { ...library, houses }, new Map());
    return machine.ok ? { told: runOf(machine.value) } : { refused: machine.issues };
  },
};

const meter: Form = {
  name: "meter",
  files: textsIn("data/meters"),
  weight: 5,
  judge: (text, file) => {
    const read = readMeter(text, file);
    if (!read.ok) return { refused: read.issues };
    const told = read.value.ranges.flatMap((range) =>
      [0, range.top / 3, range.top, 2 * range.top, -range.top].map((value) => {
        const shown = shownBy(read.value, range.quantity, value);
        const spread = standardUncertaintyOf(range, value);
        hold(spread >= 0 && limitOf(range, value) >= 0, `an uncertainty of ${spread}`);
        return [shown, displayed(range, value), spread];
      }),
    );
    const { leadOhms, nulledOhms, inputOhms } = read.value;
    hold(leadOhms.lo >= 0 && leadOhms.hi >= leadOhms.lo && nulledOhms >= 0 && inputOhms > 0, "ohms below nothing");
    // An instrument without volts ranges draws nothing: its input is endless.
    return { told: [told, leadOhms, nulledOhms, 1 / inputOhms] };
  },
};

const shop: Form = {
  name: "costs",
  files: textsIn("data/costs"),
  weight: 3.5,
  judge: (text, file) => {
    const read = readShop(text, "shop", file);
    if (!read.ok) return { refused: read.issues };
    const told = [
      priceOf(60, read.value),
      workPrice(75, read.value),
      stopCost(read.value),
      stopCost(read.value, 9, 500),
    ];
    hold(
      told.every((money) => money >= 0),
      `money ${told.join()}`,
    );
    return { told: [told, read.value.minutes, read.value.comeback, read.value.secondVisit] };
  },
};

/** What a job on the tumble dryer is judged by; made when the first one is. */
interface Bench {
  readonly machine: Machine;
  readonly opened: ForeseenCase;
  readonly sheet: Sheet;
}

let ready: Bench | undefined;

function bench(): Bench {
  if (ready !== undefined) return ready;
  const read = readSheet(written.sheet.get("data/sheets/tumble-dryer.yaml") ?? "", "tumble-dryer.yaml", library);
  if (!read.ok) throw new Error("the shipped sheet is not read");
  const machine = shippedMachine("tumble-dryer", Object.fromEntries(ANSWERS));
  ready = { machine, opened: caseOn([{ machine, weight: 1 }], { pairsAtMost: 300 }), sheet: read.value };
  return ready;
}

const ANSWERS = new Map([
  ["control", "board with two heater poles"],
  ["air", "vented"],
]);
const meters = new Map(
  [...textsIn("data/meters")].flatMap(([file, text]) => {
    const read = readMeter(text, file);
    return read.ok ? [[read.value.id, read.value] as const] : [];
  }),
);
const demoShop = readShop([...textsIn("data/costs").values()][0] ?? "", "demo-shop");

const job: Form = {
  name: "job",
  files: written.job,
  weight: 4,
  judge: (text, file, round) => {
    const read = readJob(text, file);
    if (!read.ok) return { refused: read.issues };
    if (!demoShop.ok) throw new Error("the shipped costs are not read");
    const { machine, opened, sheet } = bench();
    const choice = combinations(sheet, ANSWERS)[0];
    if (round % 10 === 0 && choice !== undefined) assemble(sheet, library, choice.choice, knownDifferences(read.value));
    const state = foldJob(read.value, [machine], demoShop.value, meters, file);
    if (!state.ok) return { refused: state.issues };
    const { observations, work } = state.value;
    if (round % 5 !== 0) return { told: [observations.length, work.minutes, work.spent, accountOf(read.value)] };
    return judgedOdds(
      opened,
      observations.map(({ observation }) => observation),
      (belief) =>
        round % 50 === 0
          ? nextSteps(opened, belief, work, demoShop.value, { meters }).steps.map((step) => [
              step.id,
              step.minutes,
              step.cost,
              step.expectedCost,
            ])
          : work.minutes,
    );
  },
};

function judgedOdds(
  opened: ForeseenCase,
  observations: Parameters<ForeseenCase["update"]>[0],
  next: (belief: ReturnType<ForeseenCase["update"]>) => unknown,
): Judged {
  const belief = opened.update(observations);
  const sum = belief.logPosterior.reduce((total, log) => total + Math.exp(log), 0);
  hold(Math.abs(sum - 1) < 1e-9, `odds that make ${sum}`);
  const odds = [...belief.parts.map(({ p }) => p), belief.nothingWrong, belief.notOnThisSheet];
  hold(
    odds.every((p) => p >= 0 && p <= 1 + 1e-9),
    "odds outside 0 to 1",
  );
  return { told: [odds, next(belief)] };
}

/** Everything that people write for the engine. */
export const writtenForms: readonly Form[] = [kind, sheet, house, meter, shop, job];
