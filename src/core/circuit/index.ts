// The door of `circuit`: elements and sources to volts, amperes, ohms, watts and their partials, or why there is none.
export { askDeck } from "./ask-deck.ts";
export type { Circuit, Guard, Ohmmeter, Shape, Solver } from "./circuit.ts";
export { compile, strictGuard, tableGuard } from "./compile.ts";
export type { Deck, DeckElement, DeckKind } from "./deck.ts";
export { type FaultTable, type FaultValue, ohmsTable, rowOf, voltsTable } from "./fault-table.ts";
export type { Answer, Asked, DeckFault, Question, Questions } from "./question.ts";
export { readDeck } from "./read-deck.ts";
export { rewriteDeck, type WrittenDeck, type WrittenElement, writeDeck } from "./write-deck.ts";
