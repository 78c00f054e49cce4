// The door of `bench`: a loose part's own test, its readings judged against limits, its grade.
export { type BenchStep, type BenchTest, benchTestOf, ROOM_CELSIUS, ratingsOf } from "./bench-test.ts";
export { type BenchResult, type BenchVerdict, judgeStep } from "./judge.ts";
export {
  type Benched,
  type BenchLine,
  type BenchRound,
  celsiusOf,
  type Grade,
  gradeOf,
  roundsOf,
  type Warmth,
} from "./rounds.ts";
