import { closed, type Schema, says, TEXT, WORDS } from "../part/index.ts";
import { BANK_KEYS, PARTY_KEYS } from "./read-party.ts";

/** Keys of somebody on a paper, with their schemas. */
export function partySchemas(): Readonly<Record<(typeof PARTY_KEYS)[number], Schema>> {
  return {
    name: says("whose paper it is", TEXT),
    lines: says("lines of the address, street first", WORDS),
    postcode: TEXT,
    town: TEXT,
    country: says("two letters, ISO 3166-1", TEXT),
    phone: TEXT,
    email: TEXT,
    "vat id": says("VAT identifier with its country's letters", TEXT),
    "tax number": says("where there is no VAT identifier", TEXT),
  };
}

/** A name alone, or a map with it. */
export function partySchema(): Schema {
  return { anyOf: [TEXT, closed(PARTY_KEYS, partySchemas(), ["name"])] };
}

export function bankSchema(): Schema {
  return closed(
    BANK_KEYS,
    { holder: says("whose account it is", TEXT), account: says("IBAN", TEXT), bic: says("the bank's BIC", TEXT) },
    ["holder", "account"],
  );
}
