import { IssueList } from "../issue/index.ts";
import { didYouMean } from "../part/index.ts";
import { SOMETIMES } from "../suspect/index.ts";
import type { JobEvent } from "./job.ts";
import type { MachineNames } from "./machine-names.ts";

/** Holds the names a job uses against those of its sheet; what is not known there becomes an issue with its line. */
export class NameCheck {
  readonly issues = new IssueList();
  readonly names: MachineNames;
  readonly #file: string | undefined;

  constructor(names: MachineNames, file: string | undefined) {
    this.names = names;
    this.#file = file;
  }

  part(event: JobEvent, name: string): string | undefined {
    return (
      this.names.parts.get(name) ??
      this.unknown(event, "job.unknown-part", name, "a part or cause of this sheet", this.names.parts.keys())
    );
  }

  points(event: JobEvent, points: readonly (string | undefined)[]): boolean {
    const named = points.filter((point) => point !== undefined);
    return this.known(event, "job.unknown-point", named, this.names.points, "a probe point of this sheet");
  }

  sign(event: JobEvent, sign: string, answer: string): boolean {
    const answers = this.names.signs.get(sign);
    if (answers === undefined) {
      this.unknown(event, "job.unknown-sign", sign, "a sign of this sheet", this.names.signs.keys());
      return false;
    }
    return this.known(event, "job.unknown-answer", [answer], new Set([...answers, SOMETIMES]), answers.join(" | "));
  }

  slot(slot: string, variant: string, line: number, at: readonly string[]): void {
    const variants = this.names.slots.get(slot);
    const place = { line, at };
    if (variants === undefined) {
      this.#issue(place, "job.unknown-slot", slot, "a slot of this sheet", didYouMean(slot, this.names.slots.keys()));
    } else if (!variants.has(variant)) {
      const known = [...variants];
      this.#issue(place, "job.unknown-variant", variant, known.join(" | "), didYouMean(variant, known));
    }
  }

  known(
    event: JobEvent,
    code: string,
    names: readonly string[],
    known: ReadonlySet<string>,
    expected: string,
  ): boolean {
    const strange = names.filter((name) => !known.has(name));
    for (const name of strange) this.unknown(event, code, name, expected, known);
    return strange.length === 0;
  }

  unknown(event: JobEvent, code: string, found: string, expected: string, known: Iterable<string>): undefined {
    return this.refuse(event, code, found, expected, didYouMean(found, known));
  }

  refuse(event: JobEvent, code: string, found: string, expected: string, hint?: string): undefined {
    this.#issue({ line: event.line, at: ["events", event.id, event.kind] }, code, found, expected, hint);
    return undefined;
  }

  #issue(
    place: { readonly line: number; readonly at: readonly string[] },
    code: string,
    found: string,
    expected: string,
    hint: string | undefined,
  ): void {
    this.issues.add({
      code,
      severity: "error",
      ...(this.#file === undefined ? {} : { file: this.#file }),
      ...place,
      found: `"${found}"`,
      expected,
      ...(hint === undefined ? {} : { hint }),
    });
  }
}
