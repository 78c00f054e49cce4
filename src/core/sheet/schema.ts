import { closed, listOf, NOTE, numberFrom, type Schema, says, TEXT, WORDS } from "../part/index.ts";
import type { Library } from "./house.ts";
import { SHARED_PIECE_FORMAT, SHARED_PIECE_KEYS } from "./piece.ts";
import {
  OWN_KEYS,
  PIECE_KEYS,
  PROTECTION_CLASSES,
  SHEET_FORMAT,
  SLOT_KEYS,
  SUPPLY_KEYS,
  VARIANT_KEYS,
} from "./read.ts";
import { partSchema } from "./schema-part.ts";
import { SECTION_SCHEMAS, SLOT_CONDITION } from "./schema-sections.ts";
import { SECTIONS } from "./sections.ts";

/**
 * The JSON Schema of a wiring sheet, from the key lists of its reader. Sections may be spread over layers, so that only
 * what stands at the top is required; what a section lacks, `checkSheet` tells.
 *
 * @param library  with it kinds, ratings, words, pins and houses are completed and checked by name
 */
export function sheetSchema(library?: Library): Schema {
  const sections = sectionsByReference();
  const piece = closed([...PIECE_KEYS, ...SECTIONS], {
    if: says("it is there exactly when this holds", SLOT_CONDITION),
    "only-if": SLOT_CONDITION,
    ...sections,
  });
  const variant = closed([...VARIANT_KEYS, ...SECTIONS], {
    look: says("how it is told by a look", TEXT),
    share: says("per cent of the family; a slot's shares make 100", numberFrom(0, 100)),
    "only-if": SLOT_CONDITION,
    use: says("pieces it is made of", WORDS),
    ...sections,
  });
  const slot = closed(SLOT_KEYS, {
    ask: says("the question that tells the variants apart", TEXT),
    "only-if": SLOT_CONDITION,
    edge: says("wires at which it meets its neighbours", WORDS),
    variants: { type: "object", additionalProperties: { $ref: "#/$defs/variant" } },
    min: says("minutes to find out by looking", numberFrom(0)),
  });
  const houses = library === undefined ? TEXT : { enum: [...library.houses.keys()] };
  const root = closed(
    [...OWN_KEYS, ...SECTIONS],
    {
      format: says("the form and its version", { const: SHEET_FORMAT }),
      sheet: says("the name of the family or machine", TEXT),
      weight: says("jobs behind the shares, as 40 jobs", { type: "string", pattern: "^[\\d.]+\\s*jobs?$" }),
      supply: closed(SUPPLY_KEYS, {
        house: says("a house supply of the library", houses),
        class: says("protection class", { enum: PROTECTION_CLASSES }),
      }),
      use: says("shared pieces that every machine of the family has", WORDS),
      slots: { type: ["object", "null"], additionalProperties: { $ref: "#/$defs/slot" } },
      pieces: { type: ["object", "null"], additionalProperties: { $ref: "#/$defs/piece" } },
      branch: says("kinds in order from line to neutral, instead of parts and wires", listOf(TEXT)),
      note: NOTE,
      ...sections,
    },
    ["format"],
  );
  return { ...root, $defs: { ...sectionSchemas(library), slot, variant, piece } };
}

/** The JSON Schema of a piece that several families share, from the key lists of its reader. */
export function pieceSchema(library?: Library): Schema {
  const root = closed(
    [...SHARED_PIECE_KEYS, ...SECTIONS],
    {
      format: says("the form and its version", { const: SHARED_PIECE_FORMAT }),
      piece: says("its name, as sheets use it", TEXT),
      says: says("what it is, in a few words", TEXT),
      note: NOTE,
      ...sectionsByReference(),
    },
    ["format", "piece", "says"],
  );
  return { ...root, $defs: sectionSchemas(library) };
}

type SectionSchemas = typeof SECTION_SCHEMAS;

function sectionsByReference(): SectionSchemas {
  return Object.fromEntries(SECTIONS.map((name) => [name, { $ref: `#/$defs/${name}` }])) as unknown as SectionSchemas;
}

function sectionSchemas(library: Library | undefined): SectionSchemas {
  const parts = { type: ["object", "null"], additionalProperties: partSchema(library) };
  return { ...SECTION_SCHEMAS, parts };
}
