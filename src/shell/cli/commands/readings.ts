import type { Command } from "commander";
import { modesOf } from "../../../core/fault/index.ts";
import { refuse } from "../../../core/issue/index.ts";
import { didYouMean } from "../../../core/part/index.ts";
import { Predictor, type UsualProbe, usualProbes } from "../../../core/predict/index.ts";
import type { Machine } from "../../../core/sheet/index.ts";
import { goodValuesInWords, goodValuesOf, labelOf } from "../../words/good-values.ts";
import { drawReadings, reachInWords, reachOf } from "../../words/reading.ts";
import type { Reach } from "../../words/scale.ts";
import { parseAnswers, sheetNamed, shippedLibrary } from "../library.ts";
import { choiceInWords, commonestMachine } from "../machine.ts";
import { need, print, printJson } from "../outcome.ts";
import { answerOption } from "./answer-option.ts";

/** A good meter's input; readings through it are what most technicians see. */
const inputOhms = 1e7;
/** Readings under faults drawn one by one; the rarer ones are counted. */
const mostDrawn = 8;
/** Faults named of one reading. */
const mostNamed = 4;

interface ReadingsOptions {
  readonly probe?: string;
  readonly answer: readonly string[];
  readonly all?: true;
  readonly json?: true;
}

/** What the meter should show: the good values of every place, or one place under every fault that changes it. */
export function addReadings(program: Command): void {
  program
    .command("readings <SHEET>")
    .description("what the meter should show, place by place; with --probe, under each fault")
    .option(
      "--probe <A-B | W step>",
      "one measurement: two points as listed (X3.1-X3.3), or watts in a step (watts heat)",
    )
    .addOption(answerOption(""))
    .option("--all", "readings that say nothing too: OL where no path is, no volts in any step")
    .option("--json", "for programs")
    .addHelpText("after", "\nExample:\n  faultwright readings tumble-dryer --answer stages=one --probe X3.1-X3.3\n")
    .action((name: string, options: ReadingsOptions) => {
      const library = shippedLibrary();
      const machine = commonestMachine(sheetNamed(name, library), library, need(parseAnswers(options.answer)));
      const predictor = new Predictor(machine, modesOf(machine));
      const probes = usualProbes(machine);
      if (options.probe !== undefined) {
        const asked = probes.filter(
          ({ probe }) => shortName(machine, probe) === options.probe || probe.id === options.probe,
        );
        if (asked.length === 0) need(unknownProbe(machine, probes, options.probe));
        for (const { probe } of asked) underEachFault(machine, predictor, probe, options.json === true);
      } else if (options.json === true) {
        printJson(
          probes.map(({ probe, class: manner }) => ({
            probe: probe.id,
            class: manner,
            terms: predictor.shows(probe, inputOhms, []).terms,
          })),
        );
      } else {
        goodValues(machine, predictor, options.all === true);
      }
    });
}

type Probe = UsualProbe["probe"];

/** What is typed after --probe: `X3.1-X3.3`, `watts heat`. */
function shortName(machine: Machine, probe: Probe): string {
  if (probe.measure !== undefined) return `${probe.measure.cause} ${probe.measure.id}`;
  const points = [probe.from, probe.to].filter((point) => point !== undefined).join("-");
  if (probe.state.kind !== "live")
    return probe.quantity === "ohms" ? points : `${probe.quantity.split(" ")[0]} ${points}`;
  const what = points === "" ? (probe.quantity.split(" ")[0] ?? "") : points;
  return `${what} ${probe.state.step ?? machine.steps[0]?.id ?? ""}`;
}

function unknownProbe(machine: Machine, probes: readonly UsualProbe[], found: string) {
  const names = probes.map(({ probe }) => shortName(machine, probe));
  const hint = didYouMean(found, names) ?? "Leave --probe out to see all of them.";
  return refuse({
    code: "probe.unknown",
    severity: "error" as const,
    at: ["--probe"],
    found: `"${found}"`,
    expected: "a measurement of this sheet",
    hint,
  });
}

function goodValues(machine: Machine, predictor: Predictor, all: boolean): void {
  print([
    `${machine.title}: what a good one shows`,
    choiceInWords(machine),
    "Ohms: plug out and proved dead, leads nulled, machine cold. LIVE: only as the cautions of a step allow.",
    ...goodValuesInWords(machine, goodValuesOf(predictor), all),
    "",
    'One of them under each fault: add --probe X3.1-X3.3, or --probe "watts heat".',
  ]);
}

function underEachFault(machine: Machine, predictor: Predictor, probe: Probe, json: boolean): void {
  const good = predictor.shows(probe, inputOhms, []);
  const shown = predictor.modes.map((mode) => {
    const atoms = predictor.atoms.filter((atom) => atom.mode === mode);
    return { mode, predictions: atoms.map((atom) => predictor.shows(probe, inputOhms, [atom])) };
  });
  if (json) {
    printJson({
      probe: probe.id,
      good: { terms: good.terms },
      faults: shown.map(({ mode, predictions }) => ({
        fault: mode.id,
        severities: predictions.map(({ terms }) => ({ terms })),
      })),
    });
    return;
  }
  const groups = new Map<string, { readonly reach: Reach; readonly faults: string[]; share: number }>();
  for (const { mode, predictions } of shown) {
    for (const prediction of predictions) {
      const reach = reachOf(prediction);
      const value = reachInWords(reach, probe.quantity, 2);
      const group = groups.get(value) ?? { reach, faults: [], share: 0 };
      if (!group.faults.includes(mode.says)) group.faults.push(mode.says);
      group.share += mode.share / predictions.length;
      groups.set(value, group);
    }
  }
  const goodValue = reachInWords(reachOf(good), probe.quantity, 2);
  const changed = [...groups].filter(([value]) => value !== goodValue).sort(([, a], [, b]) => b.share - a.share);
  const bands = [
    { says: "good", reach: reachOf(good) },
    ...changed.slice(0, mostDrawn).map(([, group]) => ({ says: nameOf(group.faults), reach: group.reach })),
  ];
  const { state } = probe;
  const live = state.kind === "live" ? ` (LIVE, ${state.step ?? state.condition ?? state.command ?? ""})` : "";
  print([
    `${labelOf(machine, probe)}${live}: what the meter shows`,
    choiceInWords(machine),
    "",
    ...drawReadings(probe.quantity, bands),
  ]);
  const folded = changed.length - mostDrawn;
  if (folded > 0) print(`and ${folded} rarer reading${folded === 1 ? "" : "s"}, folded (all of them with --json)`);
}

/** The commonest faults of one reading by name, the others counted. */
function nameOf(faults: readonly string[]): string {
  const more = faults.length - mostNamed;
  return `${faults.slice(0, mostNamed).join("; ")}${more > 0 ? `; and ${more} more` : ""}`;
}
