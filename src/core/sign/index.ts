// The door of `sign`: what can be noticed without a meter, and how far each witness is believed.
export { meansMode } from "./name.ts";
export type * from "./observation.ts";
export { isYesNo, saidBy, whichCount } from "./witness.ts";
