import { accept, type Checked, sentence } from "../../../core/issue/index.ts";
import {
  likeliest,
  loggedPower,
  type WorkedJob,
  type WrittenEvent,
  writtenEvents,
} from "../../../core/ledger/index.ts";
import {
  againstSheet,
  analysePower,
  expectedSteps,
  type PowerLog,
  readPowerLog,
} from "../../../core/powerlog/index.ts";
import { trustInWords } from "../../words/powerlog.ts";

/** A log of the power at the plug as the page of proofs shows it, before it is written down. */
export interface PowerLogView {
  readonly column: string;
  readonly columns: readonly string[];
  /** How far it can be trusted, and rows that could not be read. */
  readonly trust: readonly string[];
  /** Seconds from the first row and watts, thinned out so that no peak is lost. */
  readonly samples: readonly (readonly [seconds: number, watts: number])[];
  /** What would be written down. */
  readonly logged: WrittenEvent;
}

/** Points across the drawing: a lowest and a highest of each slice. */
const SLICES = 240;

/** Reads a log, finds what ran, and holds it against the likeliest machine's programme. */
export function powerLogView(
  worked: WorkedJob,
  { text, file, column }: { readonly text: string; readonly file: string; readonly column?: string },
): Checked<PowerLogView> {
  const log = readPowerLog(text, file, column);
  if (!log.ok) return log;
  const analysis = analysePower(log.value);
  const machine = likeliest(worked);
  const against = againstSheet(analysis, expectedSteps(machine), machine.supply.volts);
  const event = { kind: "logged", ...loggedPower(file, analysis, against) } as const;
  const [logged] = writtenEvents({ id: "e1", line: 0, ...event });
  if (logged === undefined) throw new Error("a log of power has a written form");
  return accept({
    column: log.value.column,
    columns: log.value.columns,
    trust: [...trustInWords(analysis), ...log.warnings.map(sentence)],
    samples: thinned(log.value),
    logged,
  });
}

/** The lowest and the highest of each slice, in the order in which they came. */
function thinned({ seconds, watts }: PowerLog): PowerLogView["samples"] {
  const size = Math.max(1, Math.ceil(seconds.length / SLICES));
  const points: [number, number][] = [];
  for (let from = 0; from < seconds.length; from += size) {
    let low = -1;
    let high = -1;
    for (let at = from; at < Math.min(from + size, seconds.length); at++) {
      if (Number.isNaN(watts[at])) continue;
      if (low < 0 || watts[at] < watts[low]) low = at;
      if (high < 0 || watts[at] > watts[high]) high = at;
    }
    for (const at of low === high ? [low] : [Math.min(low, high), Math.max(low, high)]) {
      if (at >= 0) points.push([seconds[at], watts[at]]);
    }
  }
  return points;
}
