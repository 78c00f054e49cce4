import { type Cursor, optional } from "../part/index.ts";
import { HIDES, LOADS, STEP_SAYS } from "../powerlog/index.ts";
import type { ClosingEvent, LoggedPower } from "./closing-event.ts";

export const LOGGED_KEYS = ["file", "seconds", "kilowatt hours", "volts", "runs", "steps", "hides"] as const;
export const RUN_KEYS = ["load", "from", "to", "watts"] as const;
export const STEP_KEYS = ["step", "says", "watts"] as const;

/** A year: no log is longer. Seconds. */
const LONGEST = 366 * 86_400;
/** No socket gives more. */
const MOST_WATTS = 50_000;

/** Reads what was kept of a log of the power at the plug. */
export function readLogged(at: Cursor): ClosingEvent | undefined {
  at.onlyKeys(LOGGED_KEYS);
  const file = at.need("file", "file: the log's name")?.word();
  const seconds = at.need("seconds", "seconds: from the first row to the last")?.number(0, LONGEST);
  const kilowattHours = at.need("kilowatt hours", "kilowatt hours: taken up in it")?.number(0, 1e6);
  const volts = at.field("volts")?.number(0, 1000);
  const runs = (at.field("runs")?.items() ?? []).flatMap((item) => readRun(item) ?? []);
  const steps = (at.field("steps")?.items() ?? []).flatMap((item) => readStep(item) ?? []);
  const hides = (at.field("hides")?.items() ?? []).flatMap((item) => item.choice(HIDES) ?? []);
  if (file === undefined || seconds === undefined || kilowattHours === undefined) return undefined;
  return { kind: "logged", file, seconds, kilowattHours, ...optional("volts", volts), runs, steps, hides };
}

function readRun(at: Cursor): LoggedPower["runs"][number] | undefined {
  at.onlyKeys(RUN_KEYS);
  const load = at.need("load", LOADS.join(" | "))?.choice(LOADS);
  const from = at.need("from", "from: seconds from the first row")?.number(0, LONGEST);
  const to = at.need("to", "to: seconds from the first row")?.number(0, LONGEST);
  const watts = at.need("watts", "watts: at the plug")?.number(0, MOST_WATTS);
  if (load === undefined || from === undefined || to === undefined || watts === undefined) return undefined;
  return { load, from, to, watts };
}

function readStep(at: Cursor): LoggedPower["steps"][number] | undefined {
  at.onlyKeys(STEP_KEYS);
  const step = at.need("step", "step: of the programme")?.word();
  const says = at.need("says", STEP_SAYS.join(" | "))?.choice(STEP_SAYS);
  const watts = at.field("watts")?.number(0, MOST_WATTS);
  return step === undefined || says === undefined ? undefined : { step, says, ...optional("watts", watts) };
}
