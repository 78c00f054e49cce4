import { IssueList } from "../issue/index.ts";
import type { JobEvent } from "./job.ts";
import type { MachineNames } from "./machine-names.ts";
import type { NameBook } from "./name-book.ts";

/** Holds the names a job uses against those of its sheet; what is not known there becomes an issue with its line. */
export class NameCheck {
  readonly issues = new IssueList();
  readonly names: MachineNames;
  readonly #file: string | undefined;

  constructor(names: MachineNames, file: string | undefined) {
    this.names = names;
    this.#file = file;
  }

  /** Id of a part or cause. */
  part(event: JobEvent, name: string): string | undefined {
    return this.known(event, "job.unknown-part", name, this.names.parts, "a part or cause of this sheet");
  }

  /** Ids of probe points, all of them known. */
  points(event: JobEvent, points: readonly string[]): readonly string[] | undefined {
    const ids = points.flatMap((point) => {
      const meaning = this.names.points.mean(point);
      if (meaning.is === "one") return meaning.id;
      const hint = this.#pinsOf(point) ?? this.names.points.hint(point);
      return this.refuse(event, "job.unknown-point", `"${point}"`, "a probe point of this sheet", hint) ?? [];
    });
    return ids.length === points.length ? ids : undefined;
  }

  /** "X3 has X3.1 · X3.2 · X3.3." where only the pin or terminal is wrong. */
  #pinsOf(point: string): string | undefined {
    const [thing = ""] = point.split(".");
    const places = this.names.points.ids.filter((id) => id.startsWith(`${thing}.`) && !id.includes(" "));
    return places.length === 0 ? undefined : `${thing} has ${places.join(" · ")}.`;
  }

  sign(event: JobEvent, sign: string, answer: string): { readonly sign: string; readonly answer: string } | undefined {
    const id = this.known(event, "job.unknown-sign", sign, this.names.signs, "a sign of this sheet");
    const answers = id === undefined ? undefined : this.names.answers.get(id);
    if (id === undefined || answers === undefined) return undefined;
    const given = this.known(event, "job.unknown-answer", answer, answers, `an answer to ${id}`);
    return given === undefined ? undefined : { sign: id, answer: given };
  }

  /** Ids of all names, or `undefined` when one of them is not known. */
  all(
    event: JobEvent,
    code: string,
    names: readonly string[],
    book: NameBook,
    expected: string,
  ): readonly string[] | undefined {
    const ids = names.flatMap((name) => this.known(event, code, name, book, expected) ?? []);
    return ids.length === names.length ? ids : undefined;
  }

  /** The id that a name means, or an issue. */
  known(event: JobEvent, code: string, name: string, book: NameBook, expected: string): string | undefined {
    const meaning = book.mean(name);
    if (meaning.is === "one") return meaning.id;
    return this.refuse(event, code, `"${name}"`, expected, book.hint(name));
  }

  refuse(event: JobEvent, code: string, found: string, expected: string, hint?: string): undefined {
    this.issues.add({
      code,
      severity: "error",
      ...(this.#file === undefined ? {} : { file: this.#file }),
      line: event.line,
      at: ["events", Number(event.id.slice(1)) - 1, event.kind],
      found,
      expected,
      ...(hint === undefined ? {} : { hint }),
    });
    return undefined;
  }
}
