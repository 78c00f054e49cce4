import { Option } from "commander";
import { parseAmount, type Rated, type UnitCode } from "../../core/quantity/index.ts";
import { Refused } from "./outcome.ts";

/** An option that holds an amount in this unit, with or without its ±; what is no amount, or not above zero where it must be, is refused. */
export function amountOption(flags: string, description: string, unit: UnitCode, isPositive = true): Option {
  const option = new Option(flags, description);
  return option.argParser((text: string): Rated => {
    const amount = parseAmount(text, { unit, positive: isPositive, at: [option.long ?? flags] });
    if (!amount.ok) throw new Refused(amount.issues);
    return amount.value;
  });
}
