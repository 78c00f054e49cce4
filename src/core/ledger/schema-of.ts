import { meterSchema } from "../meter/index.ts";
import { kindSchema, type Schema } from "../part/index.ts";
import { shopSchema } from "../remedy/index.ts";
import { type Library, pieceSchema, sheetSchema } from "../sheet/index.ts";
import { jobSchema } from "./job-schema.ts";

/** Files that a person writes and that have a schema. */
export const WRITTEN_FORMS = ["sheet", "piece", "kind", "job", "meter", "costs"] as const;
export type WrittenForm = (typeof WRITTEN_FORMS)[number];

/**
 * The JSON Schema (draft 2020-12) of a form, for an editor to complete and check while one writes. It knows keys, words
 * and shapes; formulas, names and numbers with units are checked by the readers alone.
 *
 * @param library  with it a sheet's kinds, their ratings and pins, and house supplies are known by name
 * @source JSON Schema, draft 2020-12
 */
export function schemaOf(form: WrittenForm, library?: Library): Schema {
  const about = { $schema: "https://json-schema.org/draft/2020-12/schema", title: `Faultwright ${form}` };
  switch (form) {
    case "sheet":
      return { ...about, ...sheetSchema(library) };
    case "kind":
      return { ...about, ...kindSchema() };
    case "piece":
      return { ...about, ...pieceSchema(library) };
    case "meter":
      return { ...about, ...meterSchema() };
    case "costs":
      return { ...about, ...shopSchema() };
    case "job":
      return { ...about, ...jobSchema() };
  }
}
