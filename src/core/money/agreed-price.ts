import type { Minor } from "./amount.ts";
import { divideRounded, type Rounding } from "./rounding.ts";
import { shareOut } from "./share-out.ts";
import type { Taxed } from "./totals.ts";
import { taxOn, type VatRate, vatKey } from "./vat.ts";

/** An amount as it was told to the customer: tax included. */
export interface Agreed {
  readonly gross: Minor;
  readonly vat: VatRate;
}

/**
 * Net amounts of prices that were agreed with tax included, so that the bill comes to what was agreed, to the penny.
 *
 * Not every amount is a net amount and its rounded tax (at 20 %, 3 cents is none: 2 makes 2, 3 makes 4). What is
 * missing then is told as `difference`, a unit or less a group, and goes into the bill's rounding (BT-114).
 *
 * @returns net amounts in the order given
 */
export function netOfGross(
  agreed: readonly Agreed[],
  rounding: Rounding,
): { readonly lines: readonly Taxed[]; readonly difference: Minor } {
  const groups = new Map<string, number[]>();
  for (const [index, { vat }] of agreed.entries()) {
    groups.set(vatKey(vat), [...(groups.get(vatKey(vat)) ?? []), index]);
  }
  const nets = new Array<Minor>(agreed.length).fill(0);
  let difference = 0;
  for (const members of groups.values()) {
    const own = members.map((index) => agreed[index] as Agreed);
    const vat = (own[0] as Agreed).vat;
    const gross = own.reduce((sum, one) => sum + one.gross, 0);
    const net = netUnder(gross, vat, rounding);
    difference += gross - net - taxOn(net, vat, rounding);
    // What is taken off is worked out like what is put on; the cents that are left go to the largest remainders.
    const plain = own.map((one) => netUnder(one.gross, vat, rounding));
    const left = net - plain.reduce((sum, one) => sum + one, 0);
    const corrections = shareOut(
      left,
      own.map((one) => Math.abs(one.gross)),
    );
    members.forEach((index, n) => {
      nets[index] = (plain[n] as Minor) + (corrections[n] as Minor);
    });
  }
  return { lines: agreed.map(({ vat }, index) => ({ net: nets[index] as Minor, vat })), difference };
}

function netUnder(gross: Minor, vat: VatRate, rounding: Rounding): Minor {
  const near = divideRounded(BigInt(gross) * 10_000n, BigInt(10_000 + vat.hundredths), rounding);
  return [near, near - 1, near + 1].find((net) => net + taxOn(net, vat, rounding) === gross) ?? near;
}
