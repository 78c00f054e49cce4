import { AMOUNT, CHANCE, choice, closed, listOf, numberFrom, type Schema, says, TEXT } from "../part/index.ts";
import { quantities } from "./quantity-unit.ts";
import { METER_KEYS, RANGE_KEYS } from "./read-meter.ts";

const RANGE = closed(
  RANGE_KEYS,
  {
    of: says("the quantity measured", choice(quantities)),
    top: says("the largest value shown", AMOUNT),
    step: says("one of the last digit", AMOUNT),
    share: says("per cent of the reading", CHANCE),
    counts: says("so many of the last digit", numberFrom(0, 1000)),
    floor: says("below this nothing is told", AMOUNT),
  },
  ["of", "top", "step", "share", "counts"],
);

/** The JSON Schema of a meter's file, from the key lists of its reader. */
export function meterSchema(): Schema {
  return closed(
    METER_KEYS,
    {
      says: says("what a technician calls it", TEXT),
      input: says("ohms between the leads on a volts range", AMOUNT),
      "low-impedance": says("the same in the mode that loads a phantom voltage", AMOUNT),
      beeper: says("ohms below which it sounds", AMOUNT),
      "insulation-volts": says("volts of an insulation tester", listOf(AMOUNT)),
      leads: says("ohms of the leads, a range", AMOUNT),
      nulled: says("ohms that stay after nulling", AMOUNT),
      ranges: says("accuracy by range", { type: "array", items: RANGE, minItems: 1 }),
    },
    ["says", "ranges", "source"],
  );
}
