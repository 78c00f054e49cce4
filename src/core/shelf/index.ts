// The door of `shelf`: the shop's stock with its bench tests, what repairs used up, what is to be ordered.
export { readShelf } from "./read-shelf.ts";
export { type BenchTag, mayBeFitted, type Shelf, type ShelfItem, type ShelfPlace } from "./shelf.ts";
export { type Stock, type Stocked, type StockRecord, stockNow, stockRecordOf, type Used } from "./stock.ts";
export { partUsedBy, type ShelfAfter, shelfAfter, type Taken } from "./taken.ts";
export { type OrderLine, toOrder } from "./to-order.ts";
