// Every row of the trade's table for tumble dryers as a small job: the complaint and the readings a technician would take
// first. What must come out was written down in expected.yaml before any of it was run (common practice, no source).
import { describe } from "vitest";
import { testRows } from "./row-jobs.ts";

describe("the fault comes out where a technician expects it", () => {
  testRows("expected.yaml", "T", 21);
});
