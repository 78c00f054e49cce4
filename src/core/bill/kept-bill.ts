import { accept, type Checked, refuse } from "../issue/index.ts";
import { totalsOf } from "../money/index.ts";
import type { Bill } from "./bill.ts";

/** A bill as the text that the ledger keeps and whose hash is taken: the same bill, the same text. */
export function billText(bill: Bill): string {
  return JSON.stringify(bill);
}

/**
 * A bill as it was handed over, read back from the ledger. That the text is the one handed over is told by its hash,
 * which the caller compares; here the sums are worked out once more.
 */
export function keptBill(text: string): Checked<Bill> {
  let bill: Bill;
  try {
    bill = JSON.parse(text) as Bill;
    const { lines, totals, difference, step, rounding } = bill;
    const again = totalsOf({ lines, difference, step, rounding, paid: totals.paid });
    if (JSON.stringify(again) === JSON.stringify(totals)) return accept(bill);
  } catch {
    return refuse(changed("something else"));
  }
  return refuse(changed(`a bill ${bill.number} whose sums do not fit its lines`));
}

function changed(found: string) {
  const expected = "a bill as this program wrote it";
  return { code: "bill.content", severity: "error", at: [], found, expected } as const;
}
