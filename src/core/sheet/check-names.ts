import { type Issue, IssueList } from "../issue/index.ts";
import { type Cursor, didYouMean } from "../part/index.ts";
import type { Assembled } from "./assemble.ts";
import { faultNames, matchesFault } from "./fault-names.ts";
import { jointsNamed } from "./joints.ts";

/** A name that a sheet uses, with all names that it could have meant in some combination. */
interface Use {
  readonly cursor: Cursor;
  readonly name: string;
  readonly code: string;
  readonly expected: string;
  matched: boolean;
  readonly known: Set<string>;
}

/** Reasons for an open protector that name no fault. */
const WEAK_ITSELF = "itself";

/**
 * Names that must match something in at least one combination: links, tables of signs, reasons, rows of joints, guards,
 * outputs of the service test, words the machine says. Fed with every combination, asked once at the end.
 */
export class NamesInUse {
  readonly #uses = new Map<string, Use>();
  /** Its own list: what it reads again was complained about when the machine was assembled. */
  readonly #issues = new IssueList();

  look(assembled: Assembled): void {
    const { merged, machine } = assembled;
    const issues = this.#issues;
    const faults = faultNames(machine.parts, machine.causes);
    const fault = (cursor: Cursor, name: string): void => {
      const known = this.#uses.get(keyOf("sheet.fault.unknown", cursor, name))?.matched === true;
      const found = known || faults.some((one) => matchesFault(name, one));
      this.#use(cursor, name, found, faults, "sheet.fault.unknown", "a cause, a part, or part/mode of this sheet");
    };
    for (const link of merged.single("links", issues)?.items() ?? []) {
      for (const key of ["cause", "victim"]) {
        const at = link.field(key);
        if (at?.isText === true) fault(at, at.text() ?? "");
      }
    }
    for (const [, sign] of merged.section("signs", issues)) {
      for (const [name, at] of sign.field("table")?.entries() ?? []) if (name !== "else") fault(at, name);
    }
    const parts = machine.parts.flatMap(({ id, joint }) => (joint === undefined ? [id] : []));
    for (const [part, cursor] of merged.section("why-open", issues)) {
      this.#use(cursor, part, parts.includes(part), parts, "sheet.part.unknown", "a part of this sheet");
      for (const [reason, at] of cursor.entries()) {
        // Plain words are a reason of their own; what looks like a name must be one.
        if (reason !== WEAK_ITSELF && (!reason.includes(" ") || reason.includes("/"))) fault(at, reason);
      }
    }
    const owners = new Set(machine.parts.flatMap(({ joint }) => joint?.plug ?? joint?.part ?? []));
    for (const [, row] of merged.section("joint-rows", issues)) {
      for (const at of row.field("at")?.items() ?? []) {
        const name = at.isText ? (at.text() ?? "") : "";
        const found = jointsNamed(machine.parts, name).length > 0;
        this.#use(at, name, found, owners, "sheet.joint-row.nothing", "a part, a plug or a pin with joints");
      }
    }
    this.#lookAtProgramme(assembled);
  }

  #lookAtProgramme({ merged, machine }: Assembled): void {
    const issues = this.#issues;
    const outputs = machine.variables.flatMap(({ id, role }) => (role === "output" ? [id] : []));
    for (const [key, cursor] of merged.section("service-test", issues)) {
      for (const at of key === "outputs" ? cursor.items() : []) {
        const name = at.isText ? (at.text() ?? "") : "";
        this.#use(at, name, outputs.includes(name), outputs, "sheet.step.output", "an output of this sheet");
      }
    }
    const driven = new Set(machine.steps.flatMap(({ drives }) => drives.map(({ guardSays }) => guardSays ?? "")));
    const guards = [
      ...merged.section("guards", issues),
      ...merged.section("steps", issues).flatMap(([, step]) => step.field("guards")?.entries() ?? []),
    ];
    for (const [name, at] of guards) {
      this.#use(at, name, driven.has(name), driven, "sheet.guard.unused", "a guard behind an output of drives");
    }
    const codes = [...machine.codes.keys()];
    for (const [, step] of merged.section("steps", issues)) {
      for (const key of ["needs", "enters-if"]) {
        for (const [word, at] of step.field(key)?.entries() ?? []) this.#code(at, word, codes);
      }
      for (const [, timeOut] of step.field("time-outs")?.entries() ?? []) {
        for (const at of timeOut.field("then")?.items() ?? []) {
          const text = at.isText ? (at.text() ?? "") : "";
          if (text.startsWith("say ")) this.#code(at, text.slice(4).trim(), codes);
        }
      }
    }
  }

  #code(cursor: Cursor, word: string, codes: readonly string[]): void {
    this.#use(cursor, word, codes.includes(word), codes, "sheet.code.unknown", "a word that codes: explains");
  }

  #use(cursor: Cursor, name: string, found: boolean, known: Iterable<string>, code: string, expected: string): void {
    const key = keyOf(code, cursor, name);
    const use = this.#uses.get(key) ?? { cursor, name, code, expected, matched: false, known: new Set<string>() };
    use.matched ||= found;
    if (!use.matched) for (const one of known) use.known.add(one);
    this.#uses.set(key, use);
  }

  /** A warning for every name that matched in no combination. */
  warnings(): readonly Issue[] {
    const found = new IssueList();
    for (const { cursor, name, code, expected, matched, known } of this.#uses.values()) {
      if (matched) continue;
      const hint = didYouMean(name, known);
      const noted = { code, severity: "warning", ...cursor.place, found: `"${name}"`, expected } as const;
      found.add(hint === undefined ? noted : { ...noted, hint });
    }
    return found.all;
  }
}

function keyOf(code: string, cursor: Cursor, name: string): string {
  return [code, cursor.place.file ?? "", cursor.line, name].join("\n");
}
