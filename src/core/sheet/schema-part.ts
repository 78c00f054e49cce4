import {
  AMOUNT,
  type Kind,
  mapOf,
  NOTE,
  numberFrom,
  type RatingAsked,
  type Schema,
  SOURCE,
  says,
  TEXT,
  TEXT_OR_NOTHING,
  YES_NO,
} from "../part/index.ts";
import { PART_KEYS } from "./draw.ts";
import type { Library } from "./house.ts";
import { SLOT_CONDITION } from "./schema-sections.ts";

/** What a part's line may say beside its ratings and pins. */
const OWN: Readonly<Record<(typeof PART_KEYS)[number], Schema>> = {
  kind: says("the kind of the part", TEXT),
  of: says("the assembly it belongs to", TEXT),
  access: says("the cover it sits behind", TEXT),
  share: says("failures per 100 attended calls, instead of the kind's own", numberFrom(0, 100)),
  source: SOURCE,
  says: says("what a technician calls it", TEXT),
  tabs: says("pin: words for it", mapOf(TEXT)),
  live: says("never: not to be probed with power; clipped: a clip can be put on before power returns", {
    enum: ["never", "clipped"],
  }),
  points: says("whether its pins can be probed", YES_NO),
  modes: says("mode: its share here, instead of the kind's own", mapOf(numberFrom(0, 100))),
  "by-hand": says("mode: what is felt of it by hand, plug out and nothing opened", mapOf(TEXT)),
  if: SLOT_CONDITION,
  "only-if": SLOT_CONDITION,
  note: NOTE,
};

/**
 * One part's line. With a library, a line that names its kind is held to that kind's ratings and pins; a line that only
 * adds to a part of another layer names no kind, and may say what a part of any kind may.
 */
export function partSchema(library?: Library): Schema {
  const kinds = library === undefined ? [] : [...library.kinds.values()];
  const line = { type: "object", properties: OWN, additionalProperties: TEXT_OR_NOTHING };
  if (kinds.length === 0) return line;
  const held = kinds.map((kind) => ({
    if: { properties: { kind: { const: kind.id } }, required: ["kind"] },
    // biome-ignore lint/suspicious/noThenProperty: a keyword of JSON Schema; a schema is never awaited
    then: lineOf([kind]),
  }));
  const unnamed = {
    if: { not: { required: ["kind"] } },
    // biome-ignore lint/suspicious/noThenProperty: a keyword of JSON Schema; a schema is never awaited
    then: lineOf(kinds),
  };
  return {
    ...line,
    properties: { ...OWN, kind: says("the kind of the part", { enum: kinds.map(({ id }) => id) }) },
    allOf: [...held, unnamed],
  };
}

function lineOf(kinds: readonly Kind[]): Schema {
  const properties: Record<string, Schema> = Object.fromEntries(PART_KEYS.map((key) => [key, {}]));
  const patternProperties: Record<string, Schema> = {};
  const add = (name: string, schema: Schema): void => {
    // One name means different things to different kinds; then it says no more than that it is known.
    const one = kinds.length === 1 ? schema : {};
    // <p>1 stands for 11, 21, 31 ...
    if (!name.includes("<")) properties[name] = one;
    else patternProperties[`^${name.split(/<\w+>/).map(escaped).join("\\d+")}$`] = one;
  };
  for (const kind of kinds) {
    const pins = kind.tree.entries.get("pins")?.value;
    for (const pin of pins?.is === "map" ? pins.entries.keys() : []) add(pin, PIN);
    for (const [rating, asked] of kind.asks) add(rating, ratingSchema(asked));
  }
  return { properties, patternProperties, additionalProperties: false };
}

const PIN = says("pin: the wire that ends there", TEXT);

function ratingSchema(asked: RatingAsked): Schema {
  switch (asked.is) {
    case "word":
      return says(`rating, ${asked.words[0]} by default`, { enum: asked.words });
    case "formula":
      return says("rating: a condition on hands and world", TEXT);
    case "amount":
      return asked.otherwise === undefined ? says("rating, must be given", AMOUNT) : says("rating", AMOUNT);
  }
}

function escaped(text: string): string {
  return text.replaceAll(/[.*+?^${}()|[\]\\]/g, "\\$&");
}
