import type { Party } from "../money/index.ts";
import { contentLine, textValue, wholeValue } from "./content-line.ts";

/**
 * A customer as a contact card that any address book takes.
 *
 * @param uid  the same for every version of this card
 * @source RFC 6350 (vCard 4.0), 6.1 to 6.4, 6.7.6
 */
export function contactCard(party: Party, uid: string): string {
  const { name, lines, postcode = "", town = "", country = "", phone, email } = party;
  const hasAddress = lines.length > 0 || town !== "" || postcode !== "";
  // Parts of a structured value: post box and extension stay empty, as the standard advises; lines of a street are a list.
  const address = [
    "",
    "",
    lines.map(textValue).join(","),
    textValue(town),
    "",
    textValue(postcode),
    textValue(country),
  ];
  return [
    contentLine("BEGIN", "VCARD"),
    contentLine("VERSION", "4.0"),
    contentLine("UID;VALUE=text", wholeValue(uid)),
    contentLine("FN", wholeValue(name)),
    // Nobody told which part of it is which: all of it stands as the family name.
    contentLine("N", `${textValue(name)};;;;`),
    ...(hasAddress ? [contentLine("ADR", address.join(";"))] : []),
    ...(phone === undefined ? [] : [contentLine("TEL;VALUE=text", wholeValue(phone))]),
    ...(email === undefined ? [] : [contentLine("EMAIL", wholeValue(email))]),
    contentLine("END", "VCARD"),
  ].join("");
}
