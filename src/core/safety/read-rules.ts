import type { Checked } from "../issue/index.ts";
import { type Cursor, optional, readWith } from "../part/index.ts";
import type { Source, UnitCode } from "../quantity/index.ts";
import {
  type Conductor,
  METERED,
  type MeteredTest,
  PROTECTION_CLASSES,
  type ProtectionClass,
  READ_STATUSES,
  type SafetyRow,
  type SafetyRules,
} from "./rules.ts";

const RULE_KEYS = [
  "says",
  "country",
  "edition",
  "status",
  "conductor",
  "test volts",
  "with surge suppressors",
  "limits",
];
const LIMIT_KEYS = [
  "test",
  "class",
  "heating",
  "portable",
  "bare metal",
  "section up to",
  "section above",
  "clause",
  "limit",
  "free metres",
  "each metres",
  "add",
  "cord",
  "by kilowatt",
  "least",
  "most",
  "instead",
  "note",
];

/** Reads a rule set of `data/safety`; its id is the file's name. A limit without a source is refused. */
export function readSafetyRules(text: string, file: string): Checked<SafetyRules> {
  return readWith(text, file, (root) => {
    root.onlyKeys(RULE_KEYS);
    const says = root.need("says")?.word();
    const country = root.need("country")?.word();
    const edition = root.need("edition")?.word();
    const status = root.need("status")?.choice(READ_STATUSES);
    const usual = root.need("test volts")?.amount({ unit: "V", positive: true })?.nominal;
    const surge = root.need("with surge suppressors")?.amount({ unit: "V", positive: true })?.nominal;
    const conductor = new Map<number, Conductor>();
    for (const [section, at] of root.field("conductor")?.entries() ?? []) {
      const ohms = at.amount({ unit: "Ohm", positive: true });
      if (!(Number(section) > 0)) at.refuse("safety.section", "square millimetres", undefined, section);
      else if (ohms !== undefined)
        conductor.set(Number(section), { ohmsPerMetre: ohms.nominal, source: told(ohms.source) });
    }
    const rows = (root.need("limits")?.items() ?? []).map(readRow).filter((row) => row !== undefined);
    if (says === undefined || country === undefined || edition === undefined || status === undefined) return undefined;
    if (usual === undefined || surge === undefined) return undefined;
    const id = file.replace(/^.*[\\/]/, "").replace(/\.ya?ml$/, "");
    return { id, says, country, edition, status, conductor, testVolts: { usual, surge }, rows };
  });
}

function readRow(at: Cursor): SafetyRow | undefined {
  at.onlyKeys(LIMIT_KEYS);
  const test = at.need("test")?.choice(METERED);
  const classes = (at.need("class")?.items() ?? [])
    .map((one) => one.choice<ProtectionClass>(PROTECTION_CLASSES))
    .filter((one) => one !== undefined);
  if (at.source === undefined)
    at.refuse("safety.no-source", "source: where the limit stands", "Write source: M if from memory.");
  if (test === undefined || at.source === undefined) return undefined;
  const unit = unitOfTest(test);
  const amount = (key: string): number | undefined => at.field(key)?.amount({ unit })?.nominal;
  const limit = at.need("limit")?.amount({ unit })?.nominal;
  const free = at.field("free metres")?.number(0, 1000);
  const each = at.field("each metres")?.number(0.1, 1000);
  const add = amount("add");
  const longer = free === undefined || each === undefined || add === undefined ? undefined : { free, each, add };
  if (limit === undefined) return undefined;
  return {
    test,
    classes,
    limit,
    withCord: at.field("cord")?.yesNo() ?? false,
    source: told(at.source),
    ...optional("isHeating", at.field("heating")?.yesNo()),
    ...optional("isPortable", at.field("portable")?.yesNo()),
    ...optional("hasBareMetal", at.field("bare metal")?.yesNo()),
    ...optional("sectionUpTo", at.field("section up to")?.number(0, 1000)),
    ...optional("sectionAbove", at.field("section above")?.number(0, 1000)),
    ...optional("clause", at.field("clause")?.word()),
    ...optional("longer", longer),
    ...optional("byKilowatt", amount("by kilowatt")),
    ...optional("least", amount("least")),
    ...optional("most", amount("most")),
    ...optional("instead", at.field("instead")?.choice<MeteredTest>(METERED)),
    ...optional("note", at.field("note")?.word()),
  };
}

/** Mark and note, as written. */
function told(source: Source | undefined): string {
  return [source?.mark, source?.note].filter((piece) => piece !== undefined).join(" ");
}

/** Ohms or amperes. */
export function unitOfTest(test: MeteredTest): UnitCode {
  return test === "earth" || test === "insulation" ? "Ohm" : "A";
}
