import type { Checked } from "../issue/index.ts";
import { type Cursor, readWith } from "../part/index.ts";
import type { Meter, MeterRange } from "./meter.ts";
import { quantities, unitOfQuantity } from "./quantity-unit.ts";

export const METER_KEYS = [
  "says",
  "input",
  "low-impedance",
  "beeper",
  "insulation-volts",
  "leads",
  "nulled",
  "ranges",
] as const;
export const RANGE_KEYS = ["of", "top", "step", "share", "counts", "floor"] as const;
/** No display has more digits. */
const MOST_COUNTS = 1e9;

/**
 * Reads an instrument's profile; its id is the file's name.
 *
 * ```yaml
 * says: multimeter, 6000 counts
 * source: M
 * input: 10M
 * leads: 0R1..0R5
 * ranges:
 *   - {of: ohms, top: 600R, step: 0R1, share: 0.9 %, counts: 3}
 * ```
 */
export function readMeter(text: string, file: string): Checked<Meter> {
  return readWith(text, file, (root) => {
    root.onlyKeys(METER_KEYS);
    const says = root.need("says", "says: what a technician calls it")?.word();
    const input = root.field("input")?.amount({ unit: "Ohm", positive: true })?.nominal;
    const low = root.field("low-impedance")?.amount({ unit: "Ohm", positive: true })?.nominal;
    const beeper = root.field("beeper")?.amount({ unit: "Ohm", positive: true });
    const leads = root.field("leads")?.amount({ unit: "Ohm" });
    const nulled = root.field("nulled")?.amount({ unit: "Ohm" })?.nominal;
    const volts = root.field("insulation-volts")?.items();
    const ranges = root.need("ranges", "ranges: a list of ranges")?.items() ?? [];
    const read = ranges.map(readRange).filter((range) => range !== undefined);
    if (ranges.length === 0) root.refuse("meter.no-range", "one range or more");
    if (root.source === undefined)
      root.refuse("meter.no-source", "source: where the figures come from", "Write source: M if from memory.");
    const insulationVolts = volts?.map((cursor) => cursor.amount({ unit: "V", positive: true })?.nominal ?? 0);
    if (says === undefined || root.source === undefined) return undefined;
    return {
      id: file.replace(/^.*[\\/]/, "").replace(/\.ya?ml$/, ""),
      says,
      ranges: read,
      inputOhms: input ?? Number.POSITIVE_INFINITY,
      ...(low === undefined ? {} : { lowImpedanceOhms: low }),
      ...(beeper === undefined ? {} : { beeperOhms: { lo: beeper.lo, hi: beeper.hi } }),
      ...(insulationVolts === undefined ? {} : { insulationVolts }),
      leadOhms: { lo: leads?.lo ?? 0, hi: leads?.hi ?? 0 },
      nulledOhms: nulled ?? 0,
      source: [root.source.mark, root.source.note].filter((piece) => piece !== undefined).join(" "),
    };
  });
}

function readRange(at: Cursor): MeterRange | undefined {
  at.onlyKeys(RANGE_KEYS);
  const quantity = at.need("of", "of: the quantity measured")?.choice(quantities);
  if (quantity === undefined) return undefined;
  const unit = unitOfQuantity(quantity);
  const top = at.need("top", "top: the largest value shown")?.amount({ unit, positive: true })?.nominal;
  const step = at.need("step", "step: one of the last digit")?.amount({ unit, positive: true })?.nominal;
  const share = at.need("share", "share: per cent of the reading")?.chance();
  const counts = at.need("counts", "counts: so many of the last digit")?.number(0, 1000);
  const floor = at.field("floor")?.amount({ unit, positive: true })?.nominal;
  if (top === undefined || step === undefined || share === undefined || counts === undefined) return undefined;
  if (step >= top) return at.need("step")?.refuse("meter.step", "a step smaller than the top of the range");
  if (top / step > MOST_COUNTS)
    return at.need("step")?.refuse("meter.step", `at most ${MOST_COUNTS} steps up to the top of the range`);
  return { quantity, top, resolution: step, shareOfReading: share, counts, ...(floor === undefined ? {} : { floor }) };
}
