import { accept, type Checked } from "../issue/index.ts";
import { assemble, type Library, type Sheet } from "../sheet/index.ts";
import { foreseeing } from "./foresee.ts";
import type { Foresight } from "./foresight.ts";

/** Machines of two families with every slot open, each with all that was run of it. */
const MOST = 24;

/**
 * What was foreseen of the machines looked at last. It hangs on the machine alone, not on its age, nor on what was seen of
 * it: the next job on such a machine, and the same job once a slot is answered, need not run it again.
 */
export class KeptForesights {
  readonly #kept = new Map<string, Checked<Foresight>>();
  readonly #sheets = new WeakMap<Sheet, number>();
  #sheetsSeen = 0;

  /** What the sheet's machine with these variants foresees; or what is wrong with the sheet or the differences. */
  of(
    sheet: Sheet,
    library: Library,
    choice: ReadonlyMap<string, string>,
    differences: readonly string[],
  ): Checked<Foresight> {
    const key = JSON.stringify([this.#numberOf(sheet), [...choice], differences]);
    const known = this.#kept.get(key) ?? made(sheet, library, choice, differences);
    this.#kept.delete(key);
    this.#kept.set(key, known);
    for (const oldest of this.#kept.keys()) {
      if (this.#kept.size <= MOST) break;
      this.#kept.delete(oldest);
    }
    return known;
  }

  #numberOf(sheet: Sheet): number {
    const known = this.#sheets.get(sheet) ?? ++this.#sheetsSeen;
    this.#sheets.set(sheet, known);
    return known;
  }
}

function made(
  sheet: Sheet,
  library: Library,
  choice: ReadonlyMap<string, string>,
  differences: readonly string[],
): Checked<Foresight> {
  const machine = assemble(sheet, library, choice, differences);
  return machine.ok ? accept(foreseeing(machine.value), machine.warnings) : machine;
}
