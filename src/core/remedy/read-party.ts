import { type Bank, compact, isBic, isIban, type Party } from "../money/index.ts";
import type { Cursor } from "../part/index.ts";

export const PARTY_KEYS = [
  "name",
  "lines",
  "postcode",
  "town",
  "country",
  "phone",
  "email",
  "vat id",
  "tax number",
] as const;
export const BANK_KEYS = ["holder", "account", "bic"] as const;

/** Somebody on a paper: a name, or a map with name and address. */
export function readParty(at: Cursor, more: readonly string[] = []): Party | undefined {
  if (at.isText) {
    const name = at.word("a name");
    return name === undefined ? undefined : { name, lines: [] };
  }
  at.onlyKeys([...PARTY_KEYS, ...more]);
  const name = at.need("name", "name: whose paper it is")?.word();
  const country = readCountry(at.field("country"));
  const text = <K extends keyof Party>(key: (typeof PARTY_KEYS)[number], as: K): { readonly [k in K]?: string } => {
    const word = at.field(key)?.word();
    return word === undefined ? {} : ({ [as]: word } as { readonly [k in K]?: string });
  };
  if (name === undefined) return undefined;
  return {
    name,
    lines: at.field("lines")?.words("lines of an address") ?? [],
    ...text("postcode", "postcode"),
    ...text("town", "town"),
    ...(country === undefined ? {} : { country }),
    ...text("phone", "phone"),
    ...text("email", "email"),
    ...text("vat id", "vatId"),
    ...text("tax number", "taxNumber"),
  };
}

/** A country by its two letters (ISO 3166-1). */
export function readCountry(at: Cursor | undefined): string | undefined {
  const word = at?.word("a country's two letters: DE");
  if (at === undefined || word === undefined) return undefined;
  return /^[A-Z]{2}$/.test(word) ? word : at.refuse("party.country", "a country's two letters, large: DE");
}

/** The account that money is to be sent to. */
export function readBank(at: Cursor | undefined): Bank | undefined {
  if (at === undefined) return undefined;
  at.onlyKeys(BANK_KEYS);
  const holder = at.need("holder", "holder: whose account it is")?.word();
  const accountAt = at.need("account", "account: an IBAN");
  const account = accountAt?.word();
  if (account !== undefined && !isIban(account))
    accountAt?.refuse("bank.account", "an IBAN whose check digits fit", "Compare it with the card, sign by sign.");
  const bic = at.field("bic")?.word();
  if (bic !== undefined && !isBic(bic)) at.field("bic")?.refuse("bank.bic", "a BIC of eight or eleven signs");
  if (holder === undefined || account === undefined) return undefined;
  return { holder, account: compact(account), ...(bic === undefined ? {} : { bic: compact(bic) }) };
}
