import { checkedMinor, type Minor } from "./amount.ts";
import { divideRounded, type Rounding } from "./rounding.ts";
import { taxOn, type VatRate, vatKey } from "./vat.ts";

/** A net amount with its tax: a line of a bill, or an allowance or charge on the whole of it. */
export interface Taxed {
  readonly net: Minor;
  readonly vat: VatRate;
}

/** What a bill is summed from. */
export interface Summed {
  readonly lines: readonly Taxed[];
  /** Taken off and put on for the whole bill; above zero. */
  readonly allowances?: readonly Taxed[];
  readonly charges?: readonly Taxed[];
  /** Paid already: a deposit, a part. */
  readonly paid?: Minor;
  /** Smallest step in which it can be paid: 5 where small coins are gone. 1 unless told. */
  readonly step?: Minor;
  /** What the agreed price, tax included, lies above the sum that its net amounts make: see `netOfGross`. */
  readonly difference?: Minor;
  readonly rounding: Rounding;
}

/** One VAT group of a bill: BG-23. */
export interface VatGroup {
  readonly vat: VatRate;
  /** BT-116 */
  readonly taxable: Minor;
  /** BT-117 */
  readonly tax: Minor;
}

/** The sums of a bill, named as in EN 16931, BG-22. */
export interface Totals {
  /** BT-106: sum of the lines. */
  readonly lines: Minor;
  /** BT-107 and BT-108. */
  readonly allowances: Minor;
  readonly charges: Minor;
  /** BT-109: without tax. */
  readonly net: Minor;
  /** BT-110 */
  readonly tax: Minor;
  /** BT-112: with tax. */
  readonly gross: Minor;
  /** BT-113 */
  readonly paid: Minor;
  /** BT-114: what rounding to the step, or to the agreed price, adds. */
  readonly rounded: Minor;
  /** BT-115: to be paid. Below zero: to be paid back. */
  readonly due: Minor;
  /** By falling rate; each taxed as a whole. */
  readonly groups: readonly VatGroup[];
}

/**
 * Sums a bill. Tax is worked out a group, not a line, and rounded once a group.
 *
 * @throws RangeError where an amount is no whole number of the smallest unit, or where something outside the scope of
 *   the tax stands beside something within it (BR-O-11 to BR-O-14)
 * @source EN 16931-1, BR-CO-10 to BR-CO-17
 */
export function totalsOf(bill: Summed): Totals {
  const { lines, allowances = [], charges = [], paid = 0, step = 1, difference = 0, rounding } = bill;
  if (!Number.isInteger(step) || step < 1) throw new RangeError(`totalsOf: step ${step}`);
  const groups = groupsOf(lines, allowances, charges, rounding);
  const sum = (parts: readonly Taxed[]): Minor => parts.reduce((total, { net }) => total + net, 0);
  const net = sum(lines) - sum(allowances) + sum(charges);
  const tax = groups.reduce((total, group) => total + group.tax, 0);
  const gross = net + tax;
  const unrounded = gross + checkedMinor(difference) - checkedMinor(paid);
  const due = step * divideRounded(BigInt(unrounded), BigInt(step), rounding);
  return {
    lines: sum(lines),
    allowances: sum(allowances),
    charges: sum(charges),
    net,
    tax,
    gross,
    paid,
    rounded: due - gross + paid,
    due,
    groups,
  };
}

function groupsOf(
  lines: readonly Taxed[],
  allowances: readonly Taxed[],
  charges: readonly Taxed[],
  rounding: Rounding,
): VatGroup[] {
  const taxable = new Map<string, { vat: VatRate; net: Minor }>();
  const add = ({ net, vat }: Taxed, sign: 1 | -1): void => {
    const key = vatKey(vat);
    taxable.set(key, { vat, net: (taxable.get(key)?.net ?? 0) + sign * checkedMinor(net) });
  };
  for (const line of lines) add(line, 1);
  for (const allowance of allowances) add(allowance, -1);
  for (const charge of charges) add(charge, 1);
  const groups = [...taxable.values()];
  if (groups.length > 1 && groups.some(({ vat }) => vat.category === "O"))
    throw new RangeError("totalsOf: outside the scope of the tax, beside something within it");
  return groups
    .map(({ vat, net }) => ({ vat, taxable: net, tax: taxOn(net, vat, rounding) }))
    .sort((a, b) => b.vat.hundredths - a.vat.hundredths || (vatKey(a.vat) < vatKey(b.vat) ? -1 : 1));
}
