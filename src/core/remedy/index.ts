// The door of `remedy`: what can be done about a fault, what it costs, and when it is not worth it.
export { again } from "./again.ts";
export { type Course, coursesFor, matchesName, modeName } from "./course.ts";
export { type Cure, cureOf } from "./cure.ts";
export { idTogether, remediesIn } from "./done-together.ts";
export { type OwnShop, readOwnShop, withOwnShop } from "./own-shop.ts";
export { partySchema } from "./party-schema.ts";
export { type Reach, reachOf } from "./reach.ts";
export { readParty } from "./read-party.ts";
export { readShop } from "./read-shop.ts";
export { readVat } from "./read-trading.ts";
export { type Letterhead, priceOf, type Shop, type WorkMinutes } from "./shop.ts";
export { shopSchema } from "./shop-schema.ts";
export { type Trading, type UsedParts, workPrice } from "./trading.ts";
export { vatSchema } from "./trading-schema.ts";
export { stopCost } from "./worth.ts";
