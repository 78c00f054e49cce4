import { dayText } from "../../core/day/index.ts";
import type { Paper } from "../../core/paper/index.ts";

type Party = NonNullable<Paper["to"]>;

/** A name and address as on an envelope. */
export function envelopeLines({ name, lines, postcode, town, country }: Party, ofCountry?: string): readonly string[] {
  const place = [postcode, town].filter((word) => word !== undefined).join(" ");
  const abroad = country === undefined || country === ofCountry ? "" : country;
  return [name, ...lines, place, abroad].filter((line) => line !== "");
}

/** How the sender is reached: beside the name at the head. */
export function contactLines({ party }: NonNullable<Paper["from"]>): readonly string[] {
  return [...envelopeLines(party, party.country).slice(1), party.phone, party.email].filter(
    (line): line is string => line !== undefined,
  );
}

/** Who the sender is before the law: at the foot. */
export function footText({ from }: Paper): string {
  if (from === undefined) return "";
  const { party, registration } = from;
  const vat = party.vatId === undefined ? undefined : `VAT ${party.vatId}`;
  const tax = party.taxNumber === undefined ? undefined : `Tax number ${party.taxNumber}`;
  return [party.name, registration, vat, tax].filter((piece) => piece !== undefined).join(" · ");
}

/** "Invoice F-0007 · 4 March 2026" */
export function headText({ number, date }: Paper): string {
  return [...(number === undefined ? [] : [`No. ${number}`]), dayText(date)].join(" · ");
}
