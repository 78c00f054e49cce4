import { expect, test } from "vitest";
import { idTogether, remediesIn } from "./done-together.ts";

test("courses done in one go are several remedies on paper, each on its own part", () => {
  const id = idTogether([{ id: "lint/clean the way" }, { id: "one-shot/fit a new one of 10 A/128 °C" }]);
  expect(remediesIn(id)).toEqual([
    { id: "lint/clean the way", on: "lint", remedy: "clean the way" },
    { id: "one-shot/fit a new one of 10 A/128 °C", on: "one-shot", remedy: "fit a new one of 10 A/128 °C" },
  ]);
  expect(remediesIn("heater/new")).toEqual([{ id: "heater/new", on: "heater", remedy: "new" }]);
});
