import type { Rated } from "../quantity/index.ts";
import type { ClosingEvent, TestTaken } from "./closing-event.ts";
import type { WrittenEvent } from "./written-answer.ts";

/** An event between repair and door as a job file writes it. */
export function writtenClosing(event: ClosingEvent): WrittenEvent {
  return { kind: event.kind, body: bodyOf(event) };
}

function bodyOf(event: ClosingEvent): unknown {
  switch (event.kind) {
    case "operated":
      return known({ on: event.on, good: event.good, of: event.of, minutes: event.minutesEach });
    case "heated": {
      const { litres, from, to, seconds, ratedWatts, ratedVolts, mainsVolts, loadKilograms, tubKilograms } = event.heat;
      const amounts = { litres, from, to, time: seconds, volts: mainsVolts, load: loadKilograms, tub: tubKilograms };
      const written = Object.entries(amounts).map(([key, rated]) => [key, rated && ratedText(rated)]);
      return known({ ...Object.fromEntries(written), watts: ratedWatts, rated: ratedVolts });
    }
    case "loaded":
      return { on: event.on, [event.by]: ratedText(event.reading), amperes: ratedText(event.amperes) };
    case "logged":
      return known({
        file: event.file,
        seconds: event.seconds,
        "kilowatt hours": event.kilowattHours,
        volts: event.volts,
        runs: event.runs,
        steps: event.steps.map((step) => known({ ...step })),
        hides: event.hides,
      });
    case "safety":
      return known({
        rules: event.rules,
        class: event.protection,
        cord: event.cordMetres,
        section: event.cordSection,
        heating: event.heatingWatts,
        portable: yesNo(event.isPortable),
        "bare metal": yesNo(event.hasBareMetal),
        "surge suppressors": yesNo(event.hasSurgeSuppressors),
        instrument: event.instrument,
        calibrated: event.calibrated,
      });
    case "tested": {
      const { test, meter, instrument, calibrated, result } = event;
      return known({ test, ...resultOf(result), meter, instrument, calibrated });
    }
    case "ticked":
      return event.items;
    case "checked":
      return Object.fromEntries([...event.checks].map(([check, holds]) => [check, yesNo(holds)]));
    case "unproved":
      return known({ what: event.what, why: event.why, asked: event.asked, days: event.days });
    case "left":
      return { "waiting for": event.waitingFor, "made safe": event.madeSafe };
    case "notice":
      return known({
        found: event.found,
        done: event.done,
        ended: event.ended,
        to: event.to,
        signature: event.signature,
      });
  }
}

function resultOf(result: TestTaken["result"]): Readonly<Record<string, string>> {
  switch (result.is) {
    case "found":
      return { found: result.found };
    case "cannot":
      return { cannot: result.why };
    case "shown":
      return { shows: `${result.isAbove ? "> " : ""}${ratedText(result.amount)}` };
  }
}

/** An amount in base units with its spread, as `parseAmount` reads it. */
function ratedText({ nominal, lo, hi, spread }: Rated): string {
  if (spread === "exact") return `${nominal}`;
  if (spread === "range") return `${lo}..${hi}`;
  const [above, below] = [hi - nominal, nominal - lo];
  return Math.abs(above - below) <= 1e-9 * Math.abs(above) ? `${nominal} ±${above}` : `${nominal} +${above}-${below}`;
}

function yesNo(value: boolean): string {
  return value ? "yes" : "no";
}

function known(body: Readonly<Record<string, unknown>>): Readonly<Record<string, unknown>> {
  return Object.fromEntries(Object.entries(body).filter(([, value]) => value !== undefined));
}
