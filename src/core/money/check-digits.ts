/** Letters stand for 10 to 35; the whole, its first four signs moved to the end, leaves 1 when divided by 97. */
function leavesOne(text: string): boolean {
  let rest = 0;
  for (const sign of text.slice(4) + text.slice(0, 4)) {
    const value = Number.parseInt(sign, 36);
    rest = (rest * (value > 9 ? 100 : 10) + value) % 97;
  }
  return rest === 1;
}

/** Signs in front of which nothing else is typed: blanks out, letters large. */
export function compact(text: string): string {
  return text.replace(/\s/g, "").toUpperCase();
}

/**
 * Is this an account number of the right form, with check digits that fit? Lengths by country are not known here.
 *
 * @source ISO 13616: two letters, two check digits, up to 30 signs; ISO 7064 MOD 97-10
 */
export function isIban(text: string): boolean {
  const iban = compact(text);
  return /^[A-Z]{2}\d{2}[A-Z0-9]{11,30}$/.test(iban) && leavesOne(iban);
}

/** A bank's code: eight signs, or eleven with its branch. @source ISO 9362 */
export function isBic(text: string): boolean {
  return /^[A-Z0-9]{4}[A-Z]{2}[A-Z0-9]{2}([A-Z0-9]{3})?$/.test(compact(text));
}

/** A creditor reference with its check digits. @source ISO 11649 */
export function isCreditorReference(text: string): boolean {
  const reference = compact(text);
  return /^RF\d{2}[A-Z0-9]{1,21}$/.test(reference) && leavesOne(reference);
}

/**
 * The creditor reference of a bill's number; signs that may not stand in it are left out.
 *
 * @returns none where nothing or more than 21 signs are left
 * @source ISO 11649, check digits by ISO 7064 MOD 97-10
 */
export function creditorReference(number: string): string | undefined {
  const own = compact(number).replace(/[^A-Z0-9]/g, "");
  if (own.length === 0 || own.length > 21) return undefined;
  for (let digits = 2; digits <= 98; digits++) {
    const reference = `RF${String(digits).padStart(2, "0")}${own}`;
    if (leavesOne(reference)) return reference;
  }
  return undefined;
}
