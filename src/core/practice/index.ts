// The door of `practice`: a learner's typed lines become acts at a machine with a hidden fault.
export { type Act, type Pair, type RunName, VIEWS, type View } from "./act.ts";
export { drawPractice, drawType, type PracticeGround } from "./draw.ts";
export type { Danger, Judgement, Obstacle } from "./judge-act.ts";
export { choose, type Named, type Names, namesFor, type Sort } from "./names.ts";
export { coverOf, type Place } from "./place.ts";
export { type Account, type Outcome, Practice, type Thought } from "./practice.ts";
export { type Expected, fillIn, type Offer, type Reading, readLine } from "./read-line.ts";
export { type Practised, practise, touchesMachine } from "./written-acts.ts";
