import type { JobEvent, Measured, ReadingSet } from "../../core/ledger/index.ts";
import { formatShown } from "../../core/meter/index.ts";
import { whyOf } from "../../core/plan/index.ts";
import { formatAmount } from "../../core/quantity/index.ts";
import { unitOfTest } from "../../core/safety/index.ts";
import type { Machine } from "../../core/sheet/index.ts";
import { moneyInBrief } from "./money-event.ts";
import { coverName, thingName } from "./practice-dangers.ts";

/** The reason of a protector that nothing else opened. */
const ITSELF = "itself";

/** One event of a job's history on one line, in short words: "told: heat cold", "X3.1 to X3.3 26.4 Ω". */
export function eventInBrief(event: JobEvent, machine: Machine): string {
  switch (event.kind) {
    case "told":
    case "heard":
    case "seen":
      return `${event.kind}: ${event.answers.map(({ sign, answer }) => `${sign} ${answer}`).join("; ")}`;
    case "answered":
      return event.slots.map(({ slot, variant }) => `${slot}: ${variant}`).join("; ");
    case "looked":
      return `looked: ${thingName(event.at, machine)}, ${event.found}`;
    case "opened":
    case "closed":
      return `${event.kind} ${event.access.map((id) => coverName(id, machine)).join(", ")}`;
    case "unplugged":
      return "plug out";
    case "isolated":
      return "plug out, proved dead";
    case "energised":
      return "plug in";
    case "measured":
      return `${readingsInBrief(event, (id) => pointInBrief(id, machine)).join("; ")}${setInBrief(event.set)}`;
    case "counted":
      return `${pointInBrief(event.from ?? "", machine)} to ${pointInBrief(event.to ?? "", machine)}: ${event.good} good of ${event.of}`;
    case "cannot": {
      const why = whyOf({ id: event.step });
      if (why === undefined) return `not possible: ${event.step}`;
      return `${thingName(why.protector, machine)} did not open because of: ${reasonName(why.reason, machine)}`;
    }
    case "did":
      return `${thingName(event.on, machine)}: ${event.remedy}`;
    case "why":
      return event.reason === ITSELF
        ? `${thingName(event.protector, machine)} opened because it was weak itself`
        : `${thingName(event.protector, machine)} opened because of: ${reasonName(event.reason, machine)}`;
    case "operated":
      return `${thingName(event.on, machine)}: ${event.good} good of ${event.of}`;
    case "heated":
      return `heat-up: ${event.heat.from.nominal} to ${event.heat.to.nominal} °C`;
    case "loaded":
      return `${thingName(event.on, machine)}: under load`;
    case "logged":
      return `log of the power at the plug: ${event.file}`;
    case "safety":
      return `safety tests by ${event.rules}, class ${event.protection}`;
    case "tested":
      return `safety test: ${event.test}, ${testInBrief(event)}`;
    case "ticked":
      return `put back: ${event.items.join(", ")}`;
    case "checked":
      return [...event.checks].map(([check, holds]) => `${check}: ${holds ? "yes" : "no"}`).join("; ");
    case "unproved":
      return `not proved here: ${event.what}`;
    case "left":
      return `left waiting for ${event.waitingFor}, made safe`;
    case "notice":
      return `unsafe notice: ${event.ended}`;
    case "visit":
      return event.when === undefined
        ? `visit ${event.number} called off`
        : `visit ${event.number} agreed: ${event.when.at}, ${event.when.minutes} min`;
    case "withdraws":
      return `taken back: ${event.event}`;
    case "note":
      return event.text;
    case "unknown":
      return event.name;
    case "customer":
    case "payer":
    case "allowed":
    case "fees":
    case "offered":
    case "accepted":
    case "declined":
    case "charged":
    case "issued":
    case "paid":
    case "ordered":
    case "arrived":
      return moneyInBrief(event);
  }
}

/** "filter full of lint", "heater relay contact1 welded". */
function reasonName(reason: string, machine: Machine): string {
  const [thing = "", ...mode] = reason.split("/");
  return [thingName(thing, machine), ...mode].join(" ").replaceAll("*", "");
}

/** "pass", "> 20 MΩ", "could not be made: no earth pin". */
function testInBrief({ test, result }: JobEvent & { readonly kind: "tested" }): string {
  switch (result.is) {
    case "found":
      return result.found;
    case "cannot":
      return `could not be made: ${result.why}`;
    case "shown": {
      const unit = test === "look" || test === "function" ? "1" : unitOfTest(test);
      return `${result.isAbove ? "above " : ""}${formatAmount(result.amount.nominal, unit)}`;
    }
  }
}

/** "X3.1" for the pin of a connector, "condensate pump, terminal a" for a part's own end. */
function pointInBrief(id: string, { points }: Machine): string {
  const point = points.find((one) => one.id === id);
  return point === undefined || point.plug !== undefined ? id : point.says.replace(/ \([^)]*\)$/, "");
}

/** "X3.1 to X3.3 26.4 Ω", one a reading; points by their ids where nobody says what to call them. */
export function readingsInBrief(
  { readings }: Measured,
  called: (point: string) => string = (id) => id,
): readonly string[] {
  return readings.map(({ quantity, from, to, joinedWith, measure, shown }) => {
    const where =
      measure !== undefined
        ? measure.id
        : from === undefined
          ? quantity === "leakage amps"
            ? "leakage"
            : "at the plug"
          : `${[from, ...joinedWith].map(called).join(" + ")} to ${called(to ?? "")}`;
    return `${where} ${formatShown(shown, quantity)}`;
  });
}

/** " (in heat)", " (X3 off)"; nothing where it was simply dead. */
export function setInBrief({ state, pulled, freed, hands }: ReadingSet): string {
  const notes = [
    ...(state.kind === "live" ? [`in ${state.step ?? state.condition ?? state.command}`] : []),
    ...pulled.map((plug) => `${plug} off`),
    ...freed.map((part) => `${part} wire off`),
    ...[...hands].map(([input, value]) => `${input} ${value}`),
  ];
  return notes.length === 0 ? "" : ` (${notes.join(", ")})`;
}
