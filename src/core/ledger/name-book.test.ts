import { describe, expect, test } from "vitest";
import { NameBook } from "./name-book.ts";

const covers = new NameBook([
  ["back", "back panel"],
  ["base", "side and base of the machine"],
  ["top", "lid"],
]);

describe("a name in a job file", () => {
  test.each([
    ["back", "back"],
    ["back panel", "back"],
    ["Back  Panel", "back"],
    ["lid", "top"],
    ["bac", "back"],
    ["side and", "base"],
  ])("%s means %s", (written, id) => {
    expect(covers.mean(written)).toEqual({ is: "one", id });
  });

  test("that two things begin with is told with both of them", () => {
    expect(covers.mean("ba")).toEqual({ is: "several", names: ["back", "base"] });
    expect(covers.hint("ba")).toBe("Write more of it: back · base.");
  });

  test("that nothing begins with is unknown, with the nearest of 3 names or all of them", () => {
    expect(covers.mean("roof")).toEqual({ is: "unknown" });
    expect(covers.hint("bakc")).toBe("Did you mean back?");
    expect(covers.hint("roof")).toBe("There are: back · base · top.");
  });

  test("that is an id always means itself, though another thing is called so", () => {
    const parts = new NameBook([
      ["heater", "flow heater"],
      ["relay", "heater"],
    ]);
    expect(parts.mean("heater")).toEqual({ is: "one", id: "heater" });
  });

  test("of no letters means nothing", () => {
    expect(covers.mean("")).toEqual({ is: "unknown" });
  });
});
