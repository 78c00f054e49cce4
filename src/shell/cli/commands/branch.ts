import type { Command } from "commander";
import { type Mode, modesOf } from "../../../core/fault/index.ts";
import { openAtRest, Predictor, probeOf, railRule } from "../../../core/predict/index.ts";
import { branchSheet, type Machine, type Sheet } from "../../../core/sheet/index.ts";
import { reachInWords, reachOf } from "../../words/reading.ts";
import { width, wrap } from "../../words/wrap.ts";
import { shippedLibrary } from "../library.ts";
import { commonestMachine } from "../machine.ts";
import { need, print, printJson } from "../outcome.ts";

/** A low-impedance range: a floating wire reads nothing in it, so the table shows no phantoms. */
const lowOhms = 3000;
/** The cord that stands at both ends of every branch. */
const CORD = "cord";
/** A good meter's input. */
const inputOhms = 1e7;

const example = `
Example:
  faultwright branch plug,cord,switch,cutout,heater:2kW,relay
A job has the same list instead of a sheet:  branch: [plug, cord, switch, cutout, heater 2kW, relay]
`;

/** One point of the branch, between two parts or at an end. */
interface Stop {
  readonly name: string;
  readonly point: string;
}

/** A branch in two minutes: what to read from its outer ends, how to halve it, where the volts stop. */
export function addBranch(program: Command): void {
  program
    .command("branch <kinds>")
    .description("a branch from its parts in order: outer-end reading, halving, table of volts")
    .option("--json", "for programs")
    .addHelpText("after", () => `${example}\n${wrap(`Parts: ${kindsToName().join(", ")}.`, width).join("\n")}\n`)
    .action((kinds: string, options: { json?: true }) => {
      const library = shippedLibrary();
      const sheet = need(branchSheet(kinds, library));
      showBranch(sheet, commonestMachine(sheet, library, new Map()), options.json === true);
    });
}

/** Kinds that make a branch by themselves. */
function kindsToName(): string[] {
  const library = shippedLibrary();
  return [...library.kinds.keys()].filter((kind) => branchSheet(kind, library).ok);
}

function showBranch(sheet: Sheet, machine: Machine, json: boolean): void {
  const stops = stopsOf(sheet);
  const predictor = new Predictor(machine, modesOf(machine));
  const first = stops[0] as Stop;
  const rows = stops.slice(1).map((to) => ({ from: first, to, ...deadOhms(predictor, first, to) }));
  const voltsUnder = (mode: Mode | undefined) => stops.map((stop) => liveVolts(predictor, stop, mode));
  const good = voltsUnder(undefined);
  const parts = (sheet.path ?? []).flatMap(({ part }) => openModes(predictor, part).slice(0, 1));
  // An earth core that is broken shows nothing here; with the neutral's everything before it is live.
  const cord = openModes(predictor, CORD).filter((mode) => voltsUnder(mode).join() !== good.join());
  const opens = [...cord, ...parts].sort((a, b) => liveCount(voltsUnder(a)) - liveCount(voltsUnder(b)));
  const volts = [good, ...opens.map(voltsUnder)];
  if (json) {
    printJson({ parts: sheet.path, stops, ohms: rows.map(({ to, good }) => ({ to: to.point, good })), volts });
    return;
  }
  print([sheet.title, "", ...drawing(sheet, machine), ""]);
  print([
    "PLUG OUT and proved dead, leads nulled. A good one reads, from the outer end:",
    "",
    ...rows.map(({ from, to, good, atRest }) => {
      const why = atRest === undefined ? "" : `: at rest the ${atRest} is open`;
      return `  ${from.name} to ${to.name}`.padEnd(14) + good + why;
    }),
  ]);
  // What is open at rest in a good machine (a relay, a lock) is no outer end: the stretch before it is halved.
  const closed = stops.slice(0, 1 + rows.filter(({ good }) => good !== "OL").length);
  const order = `The outer ends first; if they read otherwise, halve: ${halving(closed).join(", ")}.`;
  print(["", ...wrap(order, width, "  ")]);
  print([
    "",
    ...wrap(
      "LIVE and switched on, leads clipped on dead, low-impedance range: each point against the neutral pin of the plug.",
      width,
    ),
    "",
    `  ${stops.map(({ name }) => name.padStart(6)).join(" ")}   if`,
  ]);
  const says = ["all is good", ...opens.map(({ says: mode }) => mode)];
  for (const [row, values] of volts.entries()) {
    const left = `  ${values.map((value) => value.padStart(6)).join(" ")}   `;
    print(wrap(says[row] ?? "", width, left, " ".repeat(left.length)));
  }
  print([
    "",
    "  ! Live only where dead cannot tell: competent and authorised, RCD lead tested today, hands away; local rules come first.",
    "  ! Volts at the last point: the neutral is open, and everything before it is live though nothing runs.",
    "  ! No protector and no door switch is ever bridged, not even for a test.",
  ]);
}

/** Point 1 is the line end of the first part; point n + 1 follows part n. */
function stopsOf(sheet: Sheet): readonly Stop[] {
  const path = sheet.path ?? [];
  const [first] = path;
  if (first === undefined) throw new Error("a branch sheet without parts was let pass");
  return [
    { name: "1", point: `${first.part}.${first.ends[0]}` },
    ...path.map(({ part, ends }, i) => ({ name: `${i + 2}`, point: `${part}.${ends[1]}` })),
  ];
}

function drawing(sheet: Sheet, machine: Machine): string[] {
  const says = (id: string): string => machine.parts.find((part) => part.id === id)?.says ?? id;
  const names = (sheet.path ?? []).map(({ part }) => says(part));
  const links = names.map((name, i) => `──${i + 1}──[ ${name} ]`);
  // The plug and its cord stand at both ends of every branch.
  const whole = ["[ plug L, cord ]", ...links, `──${names.length + 1}──[ cord, plug N ]`];
  const lines: string[] = [];
  for (const piece of whole) {
    const last = lines.at(-1);
    if (last === undefined || last.length + piece.length > width) lines.push(`  ${piece}`);
    else lines[lines.length - 1] = last + piece;
  }
  return lines;
}

/** Outer ends, then the middle, then the middles of the halves: what is asked for as long as an open is inside. */
function halving(stops: readonly Stop[]): string[] {
  const asked: string[] = [`${stops[0]?.name} to ${stops.at(-1)?.name}`];
  const queue: [number, number][] = [[0, stops.length - 1]];
  for (let range = queue.shift(); range !== undefined; range = queue.shift()) {
    const [lo, hi] = range;
    if (hi - lo < 2) continue;
    const middle = Math.floor((lo + hi) / 2);
    asked.push(`${stops[lo]?.name} to ${stops[middle]?.name}`);
    queue.push([lo, middle], [middle, hi]);
  }
  return asked;
}

/** What a good one shows between two points, and what is open at rest where that is OL. */
function deadOhms(predictor: Predictor, from: Stop, to: Stop): { readonly good: string; readonly atRest?: string } {
  const state = { kind: "dead", pulled: [], freed: [], hands: new Map() } as const;
  const probe = probeOf({ quantity: "ohms", from: from.point, to: to.point, state });
  const reach = reachOf(predictor.shows(probe, inputOhms, []));
  const atRest = reach === "open" ? openAtRest(predictor, probe)?.says : undefined;
  return { good: reachInWords(reach, "ohms"), ...(atRest === undefined ? {} : { atRest }) };
}

function liveVolts(predictor: Predictor, stop: Stop, mode: Mode | undefined): string {
  const probe = probeOf({ quantity: "volts", from: stop.point, to: "plug.N", state: { kind: "live", step: "on" } });
  if (!isReadToNeutral(predictor.machine, stop)) return "—";
  const atom = predictor.atoms.find((one) => one.mode === mode);
  const [term] = predictor.shows(probe, lowOhms, atom === undefined ? [] : [atom]).terms;
  return term?.kind === "value" ? `${Math.round(term.mean)} V` : "—";
}

/** A rail is never read against the mains. */
function isReadToNeutral(machine: Machine, { point }: Stop): boolean {
  const [from, to] = [point, "plug.N"].map((id) => machine.points.find((one) => one.id === id));
  return from !== undefined && to !== undefined && railRule([machine]).isOneSide(from, to);
}

/** Points of a row that are live. */
function liveCount(volts: readonly string[]): number {
  return volts.filter((shown) => shown !== "0 V").length;
}

/** The ways a part fails that open the branch at it. */
function openModes(predictor: Predictor, part: string): readonly Mode[] {
  const index = predictor.machine.parts.findIndex(({ id }) => id === part);
  return predictor.modes.filter(
    (mode) =>
      mode.part === index &&
      mode.severities.every(({ effects }) => effects.some(({ does }) => does === "open" || does === "stuck")),
  );
}
