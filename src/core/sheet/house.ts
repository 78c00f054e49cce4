import type { Checked } from "../issue/index.ts";
import { type Cursor, type Kind, readWith } from "../part/index.ts";
import { parseAmount } from "../quantity/index.ts";
import type { SharedPiece } from "./piece.ts";
import { layerOf, SECTIONS } from "./sections.ts";
import type { Layer } from "./sheet.ts";

/** What stands between the street and the appliance's terminals: parts like any other, in the syntax of a sheet. */
export interface House {
  readonly name: string;
  readonly says: string;
  /** Volts between the two live conductors of the largest voltage, as a plate would say. */
  readonly volts: number;
  readonly hertz: number;
  readonly layer: Layer;
  /** Its parts' names: a sheet may add to one of them, but not give its name to another part. */
  readonly partNames: ReadonlySet<string>;
  /** Laid over it for an appliance of that protection class. */
  readonly classes: ReadonlyMap<string, Layer>;
  /** Elements (`cord.line1`) that carry the appliance's whole current. */
  readonly atThePlug: { readonly lines: readonly string[]; readonly neutral?: string; readonly earth?: string };
}

/** Everything a sheet may refer to. */
export interface Library {
  readonly kinds: ReadonlyMap<string, Kind>;
  readonly houses: ReadonlyMap<string, House>;
  readonly pieces: ReadonlyMap<string, SharedPiece>;
}

const OWN_KEYS = ["format", "house", "says", "volts", "hertz", "at the plug", "classes"] as const;

/** Reads a house supply, `faultwright-house/1`; its parts are checked when a sheet is assembled with it. */
export function readHouse(text: string, file?: string): Checked<House> {
  return readWith(text, file, (root) => {
    root.onlyKeys([...OWN_KEYS, ...SECTIONS]);
    root.need("format")?.choice(["faultwright-house/1"]);
    const name = root.need("house")?.word("the name of the house supply");
    const says = root.need("says")?.word();
    const volts = amount(root, "volts", "V");
    const hertz = amount(root, "hertz", "Hz");
    const carries = root.need("at the plug");
    const lines = carries?.need("lines")?.words() ?? [];
    const neutral = carries?.field("neutral")?.word();
    const earth = carries?.field("earth")?.word();
    const layer = layerOf(root, OWN_KEYS);
    const classes = new Map<string, Layer>();
    for (const [name, entry] of root.field("classes")?.entries() ?? []) {
      const variant = layerOf(entry, []);
      if (variant !== undefined) classes.set(name, variant);
    }
    if (name === undefined || says === undefined || volts === undefined || hertz === undefined || layer === undefined) {
      return undefined;
    }
    const atThePlug = {
      lines,
      ...(neutral === undefined ? {} : { neutral }),
      ...(earth === undefined ? {} : { earth }),
    };
    const partNames = new Set(
      root
        .field("parts")
        ?.entries()
        .map(([id]) => id),
    );
    return { name, says, volts, hertz, layer, partNames, classes, atThePlug };
  });
}

function amount(root: Cursor, key: string, unit: "V" | "Hz"): number | undefined {
  const cursor = root.need(key);
  const text = cursor?.word();
  if (cursor === undefined || text === undefined) return undefined;
  return root.issues.take(parseAmount(text, { unit, positive: true, ...cursor.place }))?.nominal;
}
