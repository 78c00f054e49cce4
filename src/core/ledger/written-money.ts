import type { Party, VatRate } from "../money/index.ts";
import type { MoneyEvent } from "./money-event.ts";
import type { WrittenEvent } from "./written-answer.ts";

/** An event about money as a job file writes it: `readJob` reads the same event from it. */
export function writtenMoney(event: MoneyEvent): WrittenEvent {
  switch (event.kind) {
    case "customer":
    case "payer":
      return { kind: event.kind, body: partyBody(event.party) };
    case "offered":
      return { kind: event.kind, body: event.choices.map(({ choice, says, price }) => ({ choice, says, price })) };
    case "allowed":
      return { kind: event.kind, body: only(event, ["amount", "who", "how"]) };
    case "fees": {
      const { callOut, diagnosis } = event;
      return { kind: event.kind, body: { "call-out": callOut, diagnosis, ...only(event, ["who", "how"]) } };
    }
    case "accepted":
    case "declined":
      return { kind: event.kind, body: only(event, ["choice", "price", "signed", "who"]) };
    case "charged": {
      const vat = event.vat === undefined ? {} : { vat: vatBody(event.vat) };
      return { kind: event.kind, body: { ...only(event, ["what", "says", "amount", "quantity"]), ...vat } };
    }
    case "issued":
      return { kind: event.kind, body: only(event, ["paper", "number", "date", "of", "total", "hash", "content"]) };
    case "paid":
      return { kind: event.kind, body: only(event, ["amount", "how", "number", "date"]) };
    case "ordered":
      return { kind: event.kind, body: only(event, ["part", "says", "price", "from", "due"]) };
    case "arrived":
      return { kind: event.kind, body: event.part };
  }
}

function only<T extends object, Key extends keyof T>(event: T, keys: readonly Key[]): Record<string, unknown> {
  return Object.fromEntries(keys.filter((key) => event[key] !== undefined).map((key) => [key, event[key]]));
}

function partyBody({ vatId, taxNumber, ...party }: Party): Record<string, unknown> {
  return {
    ...party,
    ...(vatId === undefined ? {} : { "vat id": vatId }),
    ...(taxNumber === undefined ? {} : { "tax number": taxNumber }),
  };
}

function vatBody({ category, hundredths, reason }: VatRate): Record<string, unknown> {
  return { category, percent: hundredths / 100, ...(reason === undefined ? {} : { reason }) };
}
