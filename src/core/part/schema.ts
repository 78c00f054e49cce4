/** Any value that JSON can hold. */
type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };

/** A JSON Schema, or a part of one: draft 2020-12. */
export type Schema = { readonly [key: string]: Json };

/** A schema with the line that an editor shows beside the key. */
export function says(description: string, schema: Schema): Schema {
  return { description, ...schema };
}

/** Anything written on one line: an editor reads `26` as a number and `yes` as a text, our reader both as texts. */
export const TEXT: Schema = { type: ["string", "number", "boolean"] };
/** A text that may be left out behind its key. */
export const TEXT_OR_NOTHING: Schema = { type: ["string", "number", "boolean", "null"] };
export const AMOUNT: Schema = says("a number with unit, ± tolerance or range: 400R ±10%, 2k..15k, 8µ", TEXT);
export const FORMULA: Schema = says("a formula or condition", TEXT);
export const YES_NO: Schema = { enum: ["yes", "no"] };
export const PAIR: Schema = { type: "string", pattern: "^[^/]+/[^/]+$" };
export const CHANCE: Schema = {
  anyOf: [
    { type: "number", minimum: 0, maximum: 1 },
    { type: "string", pattern: "^\\s*[\\d.]+\\s*%?\\s*(@.*)?$" },
  ],
};

/** A plain number between bounds, or one with a source mark behind it. */
export function numberFrom(minimum?: number, maximum?: number): Schema {
  const lo = minimum === undefined ? {} : { minimum };
  const hi = maximum === undefined ? {} : { maximum };
  return {
    anyOf: [
      { type: "number", ...lo, ...hi },
      { type: "string", pattern: "^[-+.\\d][-+.\\deE]*(\\s*@.*)?$" },
    ],
  };
}

export function choice(words: readonly string[]): Schema {
  return { enum: words };
}

/** A list, or a single member without the brackets, or nothing. */
export function listOf(member: Schema): Schema {
  return { anyOf: [member, { type: "array", items: member }, { type: "null" }] };
}

export const WORDS: Schema = listOf(TEXT);
export const FORMULAS: Schema = listOf(FORMULA);

/** Names of the writer's own choice, each with the same kind of value. */
export function mapOf(value: Schema): Schema {
  return { type: ["object", "null"], additionalProperties: value };
}

/**
 * A map with these keys and no others (`source` may stand in any).
 *
 * @param keys  as the reader knows them; a schema for each, none missing and none too many, is asked for by the types
 */
export function closed<Key extends string>(
  keys: readonly Key[],
  schemas: Readonly<Record<Key, Schema>>,
  required: readonly (Key | "source")[] = [],
): Schema {
  const properties = Object.fromEntries(keys.map((key) => [key, schemas[key]] as const));
  return {
    type: "object",
    properties: { ...properties, source: SOURCE },
    additionalProperties: false,
    ...(required.length === 0 ? {} : { required }),
  };
}

export const SOURCE: Schema = says(
  "C common practice, M from memory, D worked out, P plate, S the shop's own (n=6), I invented, R read in (title)",
  { type: "string", pattern: "^\\s*[CMDPSIR](\\s|$)" },
);
export const NOTE: Schema = says("for people; moves nothing", TEXT);
