export type Decimal = "." | ",";

const NUMBER: Readonly<Record<Decimal, RegExp>> = {
  ".": /^[+-]?(\d{1,3}(,\d{3})+|\d+)?(\.\d*)?(e[+-]?\d+)?$/i,
  ",": /^[+-]?(\d{1,3}(\.\d{3})+|\d+)?(,\d*)?(e[+-]?\d+)?$/i,
};
/** What a logger writes when it has nothing to write. */
const NOTHING = /^(nan|null|none|n\/?a|-+|unavailable|unknown|\?)?$/i;

/** What nearly every cell is. */
const USUAL = /^\d+(\.\d+)?$/;

/** A number as the log writes it; NaN where nothing was logged; undefined for what is no number. */
export function numberIn(text: string, decimal: Decimal): number | undefined {
  if (decimal === "." && USUAL.test(text)) return Number(text);
  const bare = text.trim().replace(/\s*W$/, "");
  if (NOTHING.test(bare)) return Number.NaN;
  if (!NUMBER[decimal].test(bare) || !/\d/.test(bare)) return undefined;
  const plain = decimal === "." ? bare.replaceAll(",", "") : bare.replaceAll(".", "").replace(",", ".");
  const value = Number(plain);
  return Number.isFinite(value) ? value : undefined;
}
