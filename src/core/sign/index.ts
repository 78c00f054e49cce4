// The door of `sign`: what can be noticed without a meter, and how far each witness is believed.
export { type Seen, trueAnswers } from "./answers.ts";
export { MeanMoment } from "./mean-moment.ts";
export { meansMode } from "./name.ts";
export type * from "./observation.ts";
export { isYesNo, SOMETIMES, saidBy, whichCount } from "./witness.ts";
