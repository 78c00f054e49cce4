// The door of `remedy`: what can be done about a fault, what it costs, and when it is not worth it.
export { type Course, coursesFor, matchesName, modeName } from "./course.ts";
export { type Cure, cureOf } from "./cure.ts";
export { idTogether, remediesIn } from "./done-together.ts";
export { readShop } from "./read-shop.ts";
export { priceOf, type Shop, type WorkMinutes } from "./shop.ts";
export { shopSchema } from "./shop-schema.ts";
export { stopCost } from "./worth.ts";
