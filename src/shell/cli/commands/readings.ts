import type { Command } from "commander";
import { modesOf } from "../../../core/fault/index.ts";
import { refuse } from "../../../core/issue/index.ts";
import { type Quantity, unitOfQuantity } from "../../../core/meter/index.ts";
import { didYouMean } from "../../../core/part/index.ts";
import { type Prediction, Predictor, type UsualProbe, usualProbes } from "../../../core/predict/index.ts";
import { formatAmount } from "../../../core/quantity/index.ts";
import type { Machine } from "../../../core/sheet/index.ts";
import { drawScale } from "../../words/scale.ts";
import { parseAnswers, sheetNamed, shippedLibrary } from "../library.ts";
import { choiceInWords, commonestMachine } from "../machine.ts";
import { need, print, printJson } from "../outcome.ts";
import { collect } from "./deck.ts";

/** A good meter's input; readings through it are what most technicians see. */
const inputOhms = 1e7;
/** No hand-held instrument shows less than this of any unit it has. */
const leastShown = 1e-6;

interface ReadingsOptions {
  readonly probe?: string;
  readonly answer: readonly string[];
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
    .option("--answer <slot=variant>", "answer a slot of the family (repeatable)", collect, [])
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
            ...inJson(predictor.shows(probe, inputOhms, [])),
          })),
        );
      } else {
        goodValues(machine, predictor, probes);
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

function goodValues(machine: Machine, predictor: Predictor, probes: readonly UsualProbe[]): void {
  print([
    `${machine.title}: what a good one shows`,
    choiceInWords(machine),
    "Ohms with the plug out, leads nulled, machine cold. Volts and watts: only as the step's cautions allow.",
  ]);
  let heading = "";
  for (const usual of probes) {
    const next = headingOf(machine, usual);
    if (next !== heading) print(["", next]);
    heading = next;
    const value = valueText(predictor.shows(usual.probe, inputOhms, []), usual.probe.quantity);
    print(`  ${labelOf(machine, usual.probe).padEnd(58)} ${value}`);
  }
}

function headingOf(machine: Machine, usual: UsualProbe): string {
  if (usual.probe.measure !== undefined) return "Of the machine as a whole";
  const live = usual.probe.state.kind === "live" ? "LIVE, " : "";
  if (usual.at === undefined)
    return usual.probe.state.kind === "live"
      ? "LIVE, nothing opened: plug meter or clamp"
      : "At the mains plug, plug out";
  const access = machine.access.find(({ id }) => id === usual.access);
  const under = access === undefined ? "" : ` (${access.says})`;
  if ("plug" in usual.at) {
    const { id, ways, pinOneSays } = usual.at.plug;
    return `${live}${usual.class === "opened" ? "" : `${usual.class}: `}connector ${id}, ${ways} ways, pin 1 ${pinOneSays}${live === "" ? ", pulled, wire side" : ""}${under}`;
  }
  return `${usual.at.part.says}, in circuit${under}`;
}

function labelOf(machine: Machine, probe: Probe): string {
  if (probe.measure !== undefined) {
    const cause = machine.causes.find(({ id }) => id === probe.measure?.cause);
    return cause?.measures.find(({ id }) => id === probe.measure?.id)?.says ?? probe.measure.id;
  }
  const points = [probe.from, ...(probe.joinedWith ?? [])].filter((point) => point !== undefined).join(" + ");
  const step = probe.state.kind === "live" ? (probe.state.step ?? "") : "";
  if (points === "") return `${probe.quantity === "leakage amps" ? "leakage" : probe.quantity}, ${step}`;
  const colours = [probe.from, probe.to].map((id) => machine.points.find((point) => point.id === id)?.colour);
  const colour = colours.every((name) => name !== undefined) ? `  ${colours.join(" – ")}` : "";
  return `${points} to ${probe.to ?? ""}${step === "" ? "" : `, ${step}`}${colour}`;
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
      good: inJson(good),
      faults: shown.map(({ mode, predictions }) => ({ fault: mode.id, severities: predictions.map(inJson) })),
    });
    return;
  }
  const groups = new Map<string, { reach: { lo: number; hi: number } | "open"; faults: string[]; share: number }>();
  for (const { mode, predictions } of shown) {
    for (const prediction of predictions) {
      const value = valueText(prediction, probe.quantity);
      const group = groups.get(value) ?? { reach: reachOf(prediction), faults: [], share: 0 };
      if (!group.faults.includes(mode.says)) group.faults.push(mode.says);
      group.share += mode.share / predictions.length;
      groups.set(value, group);
    }
  }
  const goodValue = valueText(good, probe.quantity);
  const changed = [...groups].filter(([value]) => value !== goodValue).sort(([, a], [, b]) => b.share - a.share);
  const bands = [
    { says: "good", reach: reachOf(good), value: goodValue },
    ...changed.slice(0, 8).map(([value, group]) => ({ says: nameOf(group.faults), reach: group.reach, value })),
  ];
  const top = Math.max(1e-3, ...bands.map(({ reach }) => (reach === "open" ? 0 : reach.hi)));
  const ohmic = probe.quantity === "ohms" || probe.quantity === "insulation ohms";
  print([
    `${labelOf(machine, probe)}: what the meter shows`,
    choiceInWords(machine),
    "",
    ...drawScale({
      axis: ohmic ? "ohms" : "straight",
      top,
      stop: (value) => (value === 0 ? "0" : formatAmount(value, unitOfQuantity(probe.quantity), 2)),
      bands,
    }),
  ]);
  if (changed.length > 8) print(`and ${changed.length - 8} rarer readings, folded (all of them with --json)`);
}

function nameOf(faults: readonly string[]): string {
  return faults.length === 1 ? (faults[0] ?? "") : `${faults[0]} (+${faults.length - 1})`;
}

function reachOf(prediction: Prediction): { lo: number; hi: number } | "open" {
  const values = prediction.terms.flatMap((term) => (term.kind === "value" && term.weight >= 0.1 ? [term] : []));
  if (values.length === 0) return "open";
  return {
    lo: Math.max(0, Math.min(...values.map(({ mean, sigma }) => mean - 2 * sigma))),
    hi: Math.max(...values.map(({ mean, sigma }) => mean + 2 * sigma)),
  };
}

function valueText(prediction: Prediction, quantity: Quantity): string {
  const reach = reachOf(prediction);
  if (reach === "open") return "OL";
  const [lo, hi] = [reach.lo, reach.hi].map((value) => {
    const shown = value < leastShown ? 0 : value;
    return formatAmount(shown, unitOfQuantity(quantity), 2);
  });
  return lo === hi ? (lo ?? "") : `${lo} to ${hi}`;
}

function inJson(prediction: Prediction) {
  return { terms: prediction.terms };
}
