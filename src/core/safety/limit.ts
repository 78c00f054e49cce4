import type { Conductor, MeteredTest, SafetyRow, SafetyRules, Tested } from "./rules.ts";

/** The rows of a test that may hold for this appliance; which of them, the section of its cord may still decide. */
export function rowsFor(rules: SafetyRules, test: MeteredTest, tested: Tested): readonly SafetyRow[] {
  const isHeating = (tested.heatingWatts ?? 0) > 0;
  return rules.rows.filter(
    (row) =>
      row.test === test &&
      row.classes.includes(tested.protection) &&
      (row.isHeating ?? isHeating) === isHeating &&
      (row.isPortable ?? tested.isPortable ?? false) === (tested.isPortable ?? false) &&
      (row.hasBareMetal ?? tested.hasBareMetal ?? false) === (tested.hasBareMetal ?? false),
  );
}

/** The row that holds, its limit in ohms or amperes, and the cord's conductor where that is in it. */
export interface Limit {
  readonly row: SafetyRow;
  readonly limit: number;
  readonly cord?: Conductor;
}

/**
 * The row that holds, and its limit in ohms or amperes; `undefined` where none is given for this cord, or where the cord's
 * length or section would have to be known and is not.
 */
export function limitFor(rules: SafetyRules, test: MeteredTest, tested: Tested): Limit | undefined {
  const { cordSection: section, cordMetres: metres } = tested;
  const row = rowsFor(rules, test, tested).find(
    ({ sectionUpTo, sectionAbove }) =>
      (sectionUpTo === undefined || (section !== undefined && section <= sectionUpTo)) &&
      (sectionAbove === undefined || (section !== undefined && section > sectionAbove)),
  );
  if (row === undefined) return undefined;
  let limit = row.limit;
  let cord: Conductor | undefined;
  if (row.longer !== undefined) {
    if (metres === undefined) return undefined;
    const { free, each, add } = row.longer;
    limit += add * Math.max(0, Math.ceil((metres - free) / each));
  }
  if (row.withCord) {
    const perMetre = section === undefined ? undefined : rules.conductor.get(section);
    if (perMetre === undefined || metres === undefined) return undefined;
    limit += perMetre.ohmsPerMetre * metres;
    cord = perMetre;
  }
  if (row.byKilowatt !== undefined) limit = Math.max(limit, (row.byKilowatt * (tested.heatingWatts ?? 0)) / 1000);
  return {
    row,
    limit: Math.min(Math.max(limit, row.least ?? limit), row.most ?? Number.POSITIVE_INFINITY),
    ...(cord === undefined ? {} : { cord }),
  };
}
