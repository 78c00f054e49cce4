import type { House, Library } from "./house.ts";
import { Merged } from "./merge.ts";
import type { Layer, Sheet } from "./sheet.ts";
import { parseSlotTest, type SlotNames, slotTestHolds } from "./slot-test.ts";

/** House, shared pieces, family, its own pieces, variants: laid over one another in this order. */
export function mergeLayers(
  sheet: Sheet,
  house: House,
  shared: Library["pieces"],
  choice: ReadonlyMap<string, string>,
): Merged {
  const names: SlotNames = new Map([...sheet.slots].map(([id, slot]) => [id, [...slot.variants.keys()]]));
  const layers: Layer[] = [house.layer];
  const protection = house.classes.get(sheet.supply.class);
  if (protection !== undefined) layers.push(protection);
  const chosen = [...choice].flatMap(([slot, variant]) => sheet.slots.get(slot)?.variants.get(variant) ?? []);
  const used = new Set([...sheet.uses, ...chosen.flatMap(({ uses }) => uses)]);
  for (const name of used) {
    const piece = shared.get(name);
    if (piece !== undefined) layers.push(piece.layer);
  }
  layers.push(sheet.base);
  for (const [id, piece] of sheet.pieces) {
    const holds = piece.if === undefined || slotTestHolds(piece.if, choice);
    if (holds && (used.has(id) || piece.if !== undefined)) layers.push(piece.layer);
  }
  for (const { layer } of chosen) layers.push(layer);
  return new Merged(layers, (layer, condition) => {
    if (condition.is !== "text") return true;
    const file = layer.file === undefined ? {} : { file: layer.file };
    const test = parseSlotTest(condition.text, names, { ...file, line: condition.line, at: layer.at });
    return !test.ok || slotTestHolds(test.value, choice);
  });
}
