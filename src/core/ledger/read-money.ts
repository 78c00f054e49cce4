import type { Cursor } from "../part/index.ts";
import { readParty, readVat } from "../remedy/index.ts";
import { type Answered, CHARGES, type MoneyEvent, type OfferedChoice } from "./money-event.ts";
import { readDay } from "./read-day.ts";

export const ALLOWED_KEYS = ["amount", "who", "how"] as const;
export const FEES_KEYS = ["call-out", "diagnosis", "who", "how"] as const;
export const CHOICE_KEYS = ["choice", "says", "price"] as const;
export const ANSWERED_KEYS = ["choice", "price", "signed", "who"] as const;
export const CHARGED_KEYS = ["what", "says", "amount", "quantity", "vat"] as const;
export const ISSUED_KEYS = ["paper", "number", "date", "of", "total", "hash", "content"] as const;
export const PAID_KEYS = ["amount", "how", "number", "date"] as const;
export const ORDERED_KEYS = ["part", "says", "price", "from", "due"] as const;

export const AMOUNT_MOST = 1e6;

/** Kind of event about money → how its body is read. */
export const MONEY_READERS = {
  customer: (at: Cursor) => readSomebody("customer", at),
  payer: (at: Cursor) => readSomebody("payer", at),
  allowed: readAllowed,
  fees: readFees,
  offered: readOffered,
  accepted: (at: Cursor) => readAnswered("accepted", at),
  declined: (at: Cursor) => readAnswered("declined", at),
  charged: readCharged,
  issued: readIssued,
  paid: readPaid,
  ordered: readOrdered,
  arrived: readArrived,
} satisfies Readonly<Record<MoneyEvent["kind"], (at: Cursor) => MoneyEvent | undefined>>;

function readSomebody(kind: "customer" | "payer", at: Cursor): MoneyEvent | undefined {
  const party = readParty(at);
  return party === undefined ? undefined : { kind, party };
}

function readAllowed(at: Cursor): MoneyEvent | undefined {
  if (at.isText) {
    const amount = at.number(0, AMOUNT_MOST);
    return amount === undefined ? undefined : { kind: "allowed", amount };
  }
  at.onlyKeys(ALLOWED_KEYS);
  const amount = at.need("amount", "amount: what may be spent")?.number(0, AMOUNT_MOST);
  return amount === undefined ? undefined : { kind: "allowed", amount, ...words(at, ["who", "how"]) };
}

function readFees(at: Cursor): MoneyEvent | undefined {
  at.onlyKeys(FEES_KEYS);
  const callOut = at.need("call-out", "call-out: what coming costs")?.number(0, AMOUNT_MOST);
  const diagnosis = at.need("diagnosis", "diagnosis: what finding the fault costs")?.number(0, AMOUNT_MOST);
  if (callOut === undefined || diagnosis === undefined) return undefined;
  return { kind: "fees", callOut, diagnosis, ...words(at, ["who", "how"]) };
}

function readOffered(at: Cursor): MoneyEvent | undefined {
  const choices = at.items().flatMap((item): readonly OfferedChoice[] => {
    item.onlyKeys(CHOICE_KEYS);
    const choice = item.need("choice", "choice: its id")?.word();
    const says = item.need("says", "says: as it was told")?.word();
    const price = item.need("price", "price: what it comes to")?.number(0, AMOUNT_MOST);
    return choice === undefined || says === undefined || price === undefined ? [] : [{ choice, says, price }];
  });
  return choices.length === 0 ? at.refuse("job.empty-event", "a list of choices") : { kind: "offered", choices };
}

function readAnswered<K extends "accepted" | "declined">(kind: K, at: Cursor): ({ kind: K } & Answered) | undefined {
  if (at.isText) {
    const choice = at.word("a choice by its id");
    return choice === undefined ? undefined : { kind, choice };
  }
  at.onlyKeys(ANSWERED_KEYS);
  const choice = at.need("choice", "choice: its id")?.word();
  const price = at.field("price")?.number(0, AMOUNT_MOST);
  if (choice === undefined) return undefined;
  return { kind, choice, ...(price === undefined ? {} : { price }), ...words(at, ["signed", "who"]) };
}

function readCharged(at: Cursor): MoneyEvent | undefined {
  at.onlyKeys(CHARGED_KEYS);
  const what = at.need("what", CHARGES.join(" | "))?.choice(CHARGES);
  const says = at.need("says", "says: the line of the bill")?.word();
  const amountAt = at.need("amount", "amount: of all of them together");
  const amount = amountAt?.number(-AMOUNT_MOST, AMOUNT_MOST);
  const quantity = at.field("quantity")?.number(0.001, 10_000);
  const vat = readVat(at.field("vat"));
  if (what === undefined || says === undefined || amount === undefined) return undefined;
  if (amount < 0 !== (what === "discount") && amount !== 0)
    return amountAt?.refuse("job.charge", "above zero; a discount below zero");
  return {
    kind: "charged",
    what,
    says,
    amount,
    ...(quantity === undefined ? {} : { quantity }),
    ...(vat === undefined ? {} : { vat }),
  };
}

function readIssued(at: Cursor): MoneyEvent | undefined {
  at.onlyKeys(ISSUED_KEYS);
  const paper = at.need("paper", "paper: quote, invoice, credit note, report ...")?.word();
  const number = at.need("number", "number: of its series")?.word();
  const date = readDay(at.need("date", "date: 2026-03-04"));
  const total = at.field("total")?.number(-AMOUNT_MOST, AMOUNT_MOST);
  const hash = at.field("hash")?.word();
  const content = at.field("content")?.text();
  if (paper === undefined || number === undefined || date === undefined) return undefined;
  if (hash !== undefined && !/^[0-9a-f]{64}$/.test(hash))
    return at.field("hash")?.refuse("job.hash", "64 hexadecimal signs: SHA-256 of the content");
  return {
    kind: "issued",
    paper,
    number,
    date,
    ...words(at, ["of"]),
    ...(total === undefined ? {} : { total }),
    ...(hash === undefined ? {} : { hash }),
    ...(content === undefined ? {} : { content }),
  };
}

function readPaid(at: Cursor): MoneyEvent | undefined {
  if (at.isText) {
    const amount = at.number(-AMOUNT_MOST, AMOUNT_MOST);
    return amount === undefined ? undefined : { kind: "paid", amount };
  }
  at.onlyKeys(PAID_KEYS);
  const amount = at.need("amount", "amount: what was paid")?.number(-AMOUNT_MOST, AMOUNT_MOST);
  const date = readDay(at.field("date"));
  if (amount === undefined) return undefined;
  return { kind: "paid", amount, ...words(at, ["how", "number"]), ...(date === undefined ? {} : { date }) };
}

function readOrdered(at: Cursor): MoneyEvent | undefined {
  if (at.isText) {
    const part = at.word("a part");
    return part === undefined ? undefined : { kind: "ordered", part };
  }
  at.onlyKeys(ORDERED_KEYS);
  const part = at.need("part", "part: by its id, or in words")?.word();
  const price = at.field("price")?.number(0, AMOUNT_MOST);
  const due = readDay(at.field("due"));
  if (part === undefined) return undefined;
  return {
    kind: "ordered",
    part,
    ...words(at, ["says", "from"]),
    ...(price === undefined ? {} : { price }),
    ...(due === undefined ? {} : { due }),
  };
}

function readArrived(at: Cursor): MoneyEvent | undefined {
  const part = at.word("a part that was ordered");
  return part === undefined ? undefined : { kind: "arrived", part };
}

function words<Key extends string>(at: Cursor, keys: readonly Key[]): { readonly [key in Key]?: string } {
  const found: { [key in Key]?: string } = {};
  for (const key of keys) {
    const word = at.field(key)?.word();
    if (word !== undefined) found[key] = word;
  }
  return found;
}
