import { type Issue, IssueList } from "../issue/index.ts";
import { type Cursor, didYouMean } from "../part/index.ts";
import type { Assembled } from "./assemble.ts";
import { faultNames, matchesFault } from "./fault-names.ts";
import { jointsNamed } from "./joints.ts";
import { DRAIN_STEP } from "./programme.ts";

/** A name that a sheet uses. */
interface Use {
  readonly cursor: Cursor;
  readonly name: string;
  readonly code: string;
  readonly expected: string;
  matched: boolean;
}

/** Reasons for an open protector that name no fault. */
const WEAK_ITSELF = "itself";

/**
 * Names that must match something in at least one combination: links, tables of signs, reasons, rows of joints, guards,
 * outputs of the service test, words the machine says. Fed with every combination, asked once at the end.
 */
export class NamesInUse {
  readonly #uses = new Map<string, Use>();
  /** Code → the names that could have been meant, in whatever combination. */
  readonly #known = new Map<string, Set<string>>();
  /** Its own list: what it reads again was complained about when the machine was assembled. */
  readonly #issues = new IssueList();

  look(assembled: Assembled): void {
    const { merged, machine } = assembled;
    const issues = this.#issues;
    const faults = faultNames(machine.parts, machine.causes);
    this.#learn("sheet.fault.unknown", faults);
    const fault = (cursor: Cursor, name: string): void => {
      const known = this.#uses.get(keyOf("sheet.fault.unknown", cursor, name))?.matched === true;
      const found = known || faults.some((one) => matchesFault(name, one));
      this.#use(cursor, name, found, "sheet.fault.unknown", "a cause, a part, or part/mode of this sheet");
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
    this.#learn("sheet.part.unknown", parts);
    for (const [part, cursor] of merged.section("why-open", issues)) {
      this.#use(cursor, part, parts.includes(part), "sheet.part.unknown", "a part of this sheet");
      for (const [reason, at] of cursor.entries()) {
        // Plain words are a reason of their own; what looks like a name must be one.
        if (reason !== WEAK_ITSELF && (!reason.includes(" ") || reason.includes("/"))) fault(at, reason);
      }
    }
    const owners = new Set(machine.parts.flatMap(({ joint }) => joint?.plug ?? joint?.part ?? []));
    this.#learn("sheet.joint-row.nothing", owners);
    for (const [, row] of merged.section("joint-rows", issues)) {
      for (const at of row.field("at")?.items() ?? []) {
        const name = at.isText ? (at.text() ?? "") : "";
        const found = jointsNamed(machine.parts, name).length > 0;
        this.#use(at, name, found, "sheet.joint-row.nothing", "a part, a plug or a pin with joints");
      }
    }
    this.#lookAtProgramme(assembled);
  }

  #lookAtProgramme({ merged, machine }: Assembled): void {
    const issues = this.#issues;
    const outputs = machine.variables.flatMap(({ id, role }) => (role === "output" ? [id] : []));
    this.#learn("sheet.step.output", outputs);
    for (const [key, cursor] of merged.section("service-test", issues)) {
      for (const at of key === "outputs" ? cursor.items() : []) {
        const name = at.isText ? (at.text() ?? "") : "";
        this.#use(at, name, outputs.includes(name), "sheet.step.output", "an output of this sheet");
      }
    }
    const driven = new Set(machine.steps.flatMap(({ drives }) => drives.map(({ guardSays }) => guardSays ?? "")));
    this.#learn("sheet.guard.unused", driven);
    const guards = [
      ...merged.section("guards", issues),
      ...merged.section("steps", issues).flatMap(([, step]) => step.field("guards")?.entries() ?? []),
    ];
    for (const [name, at] of guards) {
      this.#use(at, name, driven.has(name), "sheet.guard.unused", "a guard behind an output of drives");
    }
    const codes = [...machine.codes.keys()];
    this.#learn("sheet.code.unknown", codes);
    for (const [, step] of merged.section("steps", issues)) {
      for (const key of ["needs", "enters-if"]) {
        for (const [word, at] of step.field(key)?.entries() ?? []) this.#code(at, word, codes);
      }
      for (const [, timeOut] of step.field("time-outs")?.entries() ?? []) {
        for (const at of timeOut.field("then")?.items() ?? []) {
          const text = at.isText ? (at.text() ?? "") : "";
          if (text.startsWith("say ")) this.#code(at, text.slice(4).trim(), codes);
          if (text === "drain") {
            this.#use(
              at,
              text,
              machine.steps.some(({ id }) => id === DRAIN_STEP),
              "sheet.time-out.drain",
              "a step drain",
            );
          }
        }
      }
    }
  }

  #code(cursor: Cursor, word: string, codes: readonly string[]): void {
    this.#use(cursor, word, codes.includes(word), "sheet.code.unknown", "a word that codes: explains");
  }

  /** Remembers what names of this sort there are. */
  #learn(code: string, names: Iterable<string>): void {
    const known = this.#known.get(code) ?? new Set();
    for (const name of names) known.add(name);
    this.#known.set(code, known);
  }

  #use(cursor: Cursor, name: string, found: boolean, code: string, expected: string): void {
    const key = keyOf(code, cursor, name);
    const use = this.#uses.get(key) ?? { cursor, name, code, expected, matched: false };
    use.matched ||= found;
    this.#uses.set(key, use);
  }

  /** A warning for every name that matched in no combination. */
  warnings(): readonly Issue[] {
    const found = new IssueList();
    for (const { cursor, name, code, expected, matched } of this.#uses.values()) {
      if (matched) continue;
      const hint = didYouMean(name, this.#known.get(code) ?? []);
      const noted = { code, severity: "warning", ...cursor.place, found: `"${name}"`, expected } as const;
      found.add(hint === undefined ? noted : { ...noted, hint });
    }
    return found.all;
  }
}

function keyOf(code: string, cursor: Cursor, name: string): string {
  return [code, cursor.place.file ?? "", cursor.line, name].join("\n");
}
