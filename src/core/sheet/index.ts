// The door of `sheet`: a family's wiring sheet, its slots, and one machine assembled from it.
export { assemble } from "./assemble.ts";
export { branchSheet } from "./branch.ts";
export { checkSheet } from "./check.ts";
export { type Combination, checkAnswers, combinations, slotWords } from "./combine.ts";
export { matchesFault } from "./fault-names.ts";
export { type House, type Library, readHouse } from "./house.ts";
export { readLibrary } from "./library.ts";
export type * from "./machine.ts";
export type { SharedPiece } from "./piece.ts";
export { DRAIN_STEP } from "./programme.ts";
export { readSheet } from "./read.ts";
export { pieceSchema, sheetSchema } from "./schema.ts";
export type { Layer, Piece, Sheet, Slot, Variant } from "./sheet.ts";
export type { SlotTest } from "./slot-test.ts";
