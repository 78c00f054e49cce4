import type { Account, Charge, WorkedJob } from "../ledger/index.ts";
import type { VatRate } from "../money/index.ts";
import { type Shop, type Trading, workPrice } from "../remedy/index.ts";
import type { BillUnit } from "./bill.ts";

/** A line as it was told to the customer. */
export interface ToldLine {
  readonly says: string;
  readonly quantity: number;
  readonly unit: BillUnit;
  /** Of all of them together, in the shop's currency. */
  readonly amount: number;
  readonly vat: VatRate;
}

/**
 * What a job is to be paid for, in this order of authority: the lines somebody wrote (`charged`); the price that was
 * accepted; else what was done, by the shop's prices.
 */
export function linesOfJob(worked: WorkedJob, account: Account, trading: Trading): readonly ToldLine[] {
  if (account.charges.length > 0) return account.charges.map((charge) => lineOf(charge, trading.vat));
  const price = agreedPrice(account);
  return price === undefined ? linesByPrice(worked, account, trading) : linesOfPrice(price, worked, account, trading);
}

/** The price of the choice that was accepted: its own, or the one it was offered at. */
export function agreedPrice({ accepted, offered }: Account): number | undefined {
  if (accepted === undefined) return undefined;
  return accepted.price ?? offered.find(({ choice }) => choice === accepted.choice)?.price;
}

function lineOf({ says, amount, quantity, vat }: Charge, usual: VatRate): ToldLine {
  return { says, quantity: quantity ?? 1, unit: "C62", amount, vat: vat ?? usual };
}

/** An agreed price told in its pieces; what call-out and parts leave is the work. */
function linesOfPrice(price: number, worked: WorkedJob, account: Account, trading: Trading): readonly ToldLine[] {
  const { shop } = worked;
  const parts = partLines(worked, trading.vat);
  const fixed = [...calledOut(shop, trading.vat), ...parts];
  const left = price - fixed.reduce((sum, { amount }) => sum + amount, 0);
  // Agreed below the sum of its pieces: the price is told, not its pieces.
  const says = account.offered.find(({ choice }) => choice === account.accepted?.choice)?.says ?? "as agreed";
  if (left < 0) return [once(says, price, trading.vat)];
  const rest = worked.state.repairs.length === 0 ? "finding the fault" : `work: ${doneSays(worked)}`;
  return left === 0 ? fixed : [...fixed, once(rest, left, trading.vat)];
}

function linesByPrice(worked: WorkedJob, account: Account, trading: Trading): readonly ToldLine[] {
  const { shop, state } = worked;
  const minutes = Math.round(state.work.minutes);
  const isMended = state.repairs.length > 0;
  const isByTime = isMended || trading.diagnosis === 0;
  const isByHour = trading.bands.length === 0;
  const price = isByTime ? workPrice(minutes, shop) : trading.diagnosis;
  const says = isMended ? `work: ${doneSays(worked)}` : "finding the fault";
  const work: ToldLine =
    isByTime && isByHour && minutes > 0
      ? { says, quantity: minutes, unit: "MIN", amount: price, vat: trading.vat }
      : once(says, price, trading.vat);
  const second = account.ordered.some(({ arrived }) => arrived);
  return [
    ...calledOut(shop, trading.vat),
    ...(price === 0 ? [] : [work]),
    ...partLines(worked, trading.vat),
    ...(second && shop.secondVisit > 0 ? [once("second visit with the part", shop.secondVisit, trading.vat)] : []),
  ];
}

function calledOut(shop: Shop, vat: VatRate): readonly ToldLine[] {
  return shop.callOut === 0 ? [] : [once("call-out", shop.callOut, vat)];
}

/** Parts fitted, at the prices their events tell. */
function partLines(worked: WorkedJob, vat: VatRate): readonly ToldLine[] {
  return worked.job.events.flatMap((event) => {
    if (event.kind !== "did" || worked.state.withdrawn.has(event.id)) return [];
    const { price } = event;
    return price === undefined || price === 0 ? [] : [once(`part: ${thingSays(worked, event.on)}`, price, vat)];
  });
}

function once(says: string, amount: number, vat: VatRate): ToldLine {
  return { says, quantity: 1, unit: "C62", amount, vat };
}

function doneSays(worked: WorkedJob): string {
  const done = worked.state.repairs.map(({ remedy, on }) => `${thingSays(worked, on)}, ${remedy}`);
  return [...new Set(done)].join("; ");
}

/** What a part, an assembly or a cause is called, by id or as it was written. */
function thingSays({ case: the }: WorkedJob, id: string): string {
  const things = the.candidates.flatMap(({ machine }) => [...machine.parts, ...machine.assemblies, ...machine.causes]);
  return things.find((one) => one.id === id || one.says === id)?.says ?? id;
}
