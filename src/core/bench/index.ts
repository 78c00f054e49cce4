// The door of `bench`: a loose part's own test, its readings judged against limits, its grade.
export { type BenchStep, type BenchTest, benchTestOf } from "./bench-test.ts";
export { type BenchResult, type BenchVerdict, judgeStep } from "./judge.ts";
export { type Benched, type BenchLine, type BenchRound, type Grade, gradeOf, roundsOf } from "./rounds.ts";
