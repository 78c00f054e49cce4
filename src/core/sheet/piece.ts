import type { Checked } from "../issue/index.ts";
import { readWith } from "../part/index.ts";
import { layerOf, SECTIONS } from "./sections.ts";
import type { Layer } from "./sheet.ts";

/** A part of the circuit that several families have: a sheet names it in `use:` and may then say more of what is in it. */
export interface SharedPiece {
  readonly name: string;
  readonly says: string;
  readonly layer: Layer;
}

export const SHARED_PIECE_KEYS = ["format", "piece", "says", "note"] as const;
export const SHARED_PIECE_FORMAT = "faultwright-piece/1";

/**
 * Reads a shared piece, `faultwright-piece/1`: sections of a sheet, whose wires have fixed names. It knows no slots, so
 * that nothing in it may hang on an answer; what is in the sections is checked when a sheet is assembled with it.
 */
export function readSharedPiece(text: string, file?: string): Checked<SharedPiece> {
  return readWith(text, file, (root) => {
    root.onlyKeys([...SHARED_PIECE_KEYS, ...SECTIONS]);
    root.need("format")?.choice([SHARED_PIECE_FORMAT]);
    const name = root.need("piece")?.word("the name of the piece");
    const says = root.need("says")?.word("what it is, in a few words");
    for (const section of SECTIONS) {
      const cursor = root.field(section);
      for (const [, entry] of cursor?.isMap === true ? cursor.entries() : []) {
        const condition = entry.field("only-if") ?? entry.field("if");
        const hint = "Put it into the sheet, or make two pieces.";
        condition?.refuse("sheet.piece.condition", "no condition on slots in a shared piece", hint);
      }
    }
    const layer = layerOf(root, SHARED_PIECE_KEYS);
    return name === undefined || says === undefined || layer === undefined ? undefined : { name, says, layer };
  });
}
