/** What the columns of a log hold, by their names and by what stands in them. */
export interface LogColumns {
  /** Columns that may be the power at the plug, in the order of the file; `scale` makes watts of them. */
  readonly power: readonly { readonly at: number; readonly name: string; readonly scale: number }[];
  /** Mains volts, if logged. */
  readonly volts?: number;
}

/** A unit stands as a word of its own: `P (W)`, `p1_W`, `power [kW]`; `kWh` is none of them. */
const unit = (of: string): RegExp => new RegExp(`(^|[^A-Za-z])${of}([^A-Za-z]|$)`);
const SCALES: readonly (readonly [RegExp, number])[] = [
  [unit("(kW|KW|kw)"), 1000],
  [unit("mW"), 0.001],
  [unit("[Ww]"), 1],
  [/watts?|power|leistung|puissance|potencia|potenza|vermogen/i, 1],
];
const ENERGY = /k?wh|energ|arbeit|cost|kosten|factor|apparent|reactive|\bVAr?\b|cos/i;
const VOLTS: readonly RegExp[] = [unit("[Vv]"), /volt|spannung|tension|spanning/i];

/**
 * Names power and volt columns. Without names, or where none speaks of power, every column of numbers that is not the time may
 * be power.
 */
export function columnsOf(
  names: readonly string[] | undefined,
  numeric: readonly number[],
  stamp: readonly number[],
): LogColumns {
  const open = numeric.filter((at) => !stamp.includes(at));
  const nameOf = (at: number): string => names?.[at]?.trim() || `column ${at + 1}`;
  if (names === undefined) return { power: open.map((at) => ({ at, name: nameOf(at), scale: 1 })) };
  const power = open.flatMap((at) => {
    const scale = powerScale(names[at] ?? "");
    return scale === undefined ? [] : [{ at, name: nameOf(at), scale }];
  });
  const volts = open.find((at) => VOLTS.some((pattern) => pattern.test(names[at] ?? "")));
  const unnamed = open.filter((at) => at !== volts && !ENERGY.test(names[at] ?? ""));
  return {
    power: power.length > 0 ? power : unnamed.map((at) => ({ at, name: nameOf(at), scale: 1 })),
    ...(volts === undefined ? {} : { volts }),
  };
}

function powerScale(name: string): number | undefined {
  if (ENERGY.test(name)) return undefined;
  return SCALES.find(([pattern]) => pattern.test(name))?.[1];
}
