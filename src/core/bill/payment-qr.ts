import { decimalText } from "../money/index.ts";
import type { Bill } from "./bill.ts";

/** Longest payload. @source EPC069-12 */
const BYTES_MOST = 331;
const NAME_MOST = 70;
const TEXT_MOST = 140;
const AMOUNT_MOST = 99_999_999_999;

/**
 * What a QR code for a credit transfer in euro holds (error correction M, version 13 at most): a bank's app reads it.
 *
 * @returns none for another currency, without an account, or where nothing is to be paid: then the bank details are printed
 * @source EPC069-12, version 002: BCD, UTF-8, SCT; name up to 70, structured reference or text up to 140 signs, 331 bytes
 */
export function paymentQr({ kind, currency, bank, totals, reference, number }: Bill): string | undefined {
  if (kind !== "invoice" || currency !== "EUR" || bank === undefined) return undefined;
  if (totals.due < 1 || totals.due > AMOUNT_MOST) return undefined;
  const text = reference === undefined ? oneLine(number, TEXT_MOST) : "";
  const amount = `EUR${decimalText({ minor: totals.due, currency })}`;
  const lines = [
    ...["BCD", "002", "1", "SCT", bank.bic ?? "", oneLine(bank.holder, NAME_MOST), bank.account, amount],
    // No purpose code; then a reference or a text, never both.
    ...["", reference ?? "", text],
  ];
  const payload = lines.join("\n").replace(/\n+$/, "");
  return bytesOf(payload) <= BYTES_MOST ? payload : undefined;
}

function oneLine(text: string, most: number): string {
  return [...text.replace(/\s+/g, " ").trim()].slice(0, most).join("");
}

/** Bytes of a text in UTF-8. */
function bytesOf(text: string): number {
  return [...text].reduce((sum, sign) => {
    const code = sign.codePointAt(0) ?? 0;
    return sum + (code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4);
  }, 0);
}
