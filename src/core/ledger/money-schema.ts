import { choice, closed, listOf, numberFrom, type Schema, says, TEXT } from "../part/index.ts";
import { partySchema, vatSchema } from "../remedy/index.ts";
import { CHARGES, type MoneyEvent } from "./money-event.ts";
import {
  ALLOWED_KEYS,
  AMOUNT_MOST,
  ANSWERED_KEYS,
  CHARGED_KEYS,
  CHOICE_KEYS,
  FEES_KEYS,
  ISSUED_KEYS,
  ORDERED_KEYS,
  PAID_KEYS,
} from "./read-money.ts";

const AMOUNT = numberFrom(0, AMOUNT_MOST);
const SIGNED_AMOUNT = numberFrom(-AMOUNT_MOST, AMOUNT_MOST);
const DATE = says("2026-03-04", TEXT);

const ANSWERED: Schema = {
  anyOf: [
    TEXT,
    closed(
      ANSWERED_KEYS,
      {
        choice: says("a choice by its id", TEXT),
        price: says("agreed, where it is not the one offered", AMOUNT),
        signed: says("a photo by its name, or refused to sign", TEXT),
        who: TEXT,
      },
      ["choice"],
    ),
  ],
};

/** Schemas of the events about money. */
export const MONEY_EVENTS: Readonly<Record<MoneyEvent["kind"], Schema>> = {
  customer: partySchema(),
  payer: says("who pays, where that is not the customer", partySchema()),
  allowed: {
    anyOf: [
      AMOUNT,
      closed(ALLOWED_KEYS, { amount: says("may be spent without asking", AMOUNT), who: TEXT, how: TEXT }, ["amount"]),
    ],
  },
  fees: closed(
    FEES_KEYS,
    {
      "call-out": says("told before the work", AMOUNT),
      diagnosis: says("for finding the fault where it is not mended", AMOUNT),
      who: says("to whom", TEXT),
      how: says("by what way", TEXT),
    },
    ["call-out", "diagnosis"],
  ),
  offered: says(
    "what the customer was shown",
    listOf(
      closed(
        CHOICE_KEYS,
        { choice: says("its id", TEXT), says: says("as it was told", TEXT), price: AMOUNT },
        CHOICE_KEYS,
      ),
    ),
  ),
  accepted: ANSWERED,
  declined: ANSWERED,
  charged: closed(
    CHARGED_KEYS,
    {
      what: choice(CHARGES),
      says: says("the line of the bill", TEXT),
      amount: says("of all of them together; a discount below zero", SIGNED_AMOUNT),
      quantity: numberFrom(0.001, 10_000),
      vat: vatSchema(),
    },
    ["what", "says", "amount"],
  ),
  issued: closed(
    ISSUED_KEYS,
    {
      paper: says("quote, invoice, credit note, report, safety ...", TEXT),
      number: says("of its series", TEXT),
      date: DATE,
      of: says("number of the paper that it takes back", TEXT),
      total: says("to be paid", SIGNED_AMOUNT),
      hash: says("SHA-256 of the content", TEXT),
      content: says("as it was handed over", TEXT),
    },
    ["paper", "number", "date"],
  ),
  paid: {
    anyOf: [
      SIGNED_AMOUNT,
      closed(
        PAID_KEYS,
        {
          amount: SIGNED_AMOUNT,
          how: says("cash, card, transfer", TEXT),
          number: says("of the bill", TEXT),
          date: DATE,
        },
        ["amount"],
      ),
    ],
  },
  ordered: {
    anyOf: [
      TEXT,
      closed(ORDERED_KEYS, { part: TEXT, says: TEXT, price: AMOUNT, from: says("supplier", TEXT), due: DATE }, [
        "part",
      ]),
    ],
  },
  arrived: says("a part that was ordered", TEXT),
};
