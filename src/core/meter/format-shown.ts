import { formatAmount } from "../quantity/index.ts";
import type { Meter, Quantity, Shown } from "./meter.ts";
import { unitOfQuantity } from "./quantity-unit.ts";
import { pickRange, shownBy } from "./range.ts";

/**
 * What was shown, as a person reads it: `26.4 Ω`, `3.8 kΩ`, `OL`, `OL (over 2 MΩ)`, `beeps`, `19 of 20`. As many figures as were
 * written, three where that is not known.
 */
export function formatShown(shown: Shown, quantity: Quantity): string {
  const unit = unitOfQuantity(quantity);
  if (shown.kind === "word") return shown.word;
  if (shown.kind === "count") return `${shown.good} of ${shown.of}`;
  if (shown.kind === "over limit") {
    return shown.top === undefined ? "OL" : `OL (over ${formatAmount(shown.top, unit)})`;
  }
  return formatAmount(shown.value, unit, figuresOf(shown.value, shown.step));
}

/** A true value as this meter would show it: `26.4 Ω`, `3.812 kΩ`, `OL`. */
export function formatDisplayed(meter: Meter, quantity: Quantity, value: number): string {
  const shown = shownBy(meter, quantity, value);
  const range = pickRange(meter, quantity, value);
  if (shown.kind !== "value" || range === undefined) return formatShown(shown, quantity);
  return formatShown({ ...shown, step: range.resolution }, quantity);
}

/** Figures of a value known to one `step`. */
function figuresOf(value: number, step: number | undefined): number {
  if (step === undefined || value === 0) return 3;
  const figures = Math.floor(Math.log10(Math.abs(value)) + 1e-9) - Math.round(Math.log10(step)) + 1;
  return Math.min(15, Math.max(1, figures));
}
