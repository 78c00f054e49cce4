import { describe, expect, test } from "vitest";
import { minutesInWords, oddsInWords } from "./odds.ts";

describe("odds in words", () => {
  test.each([
    [0.999, "almost certainly"],
    [0.97, "better than 9 in 10"],
    [0.62, "about 6 in 10"],
    [0.5, "about even"],
    [0.12, "about 1 in 10"],
    [0.049, "unlikely"],
    [0, "unlikely"],
  ])("%f is said as %s", (p, words) => {
    expect(oddsInWords(p)).toBe(words);
  });
});

describe("minutes in words", () => {
  test.each([
    [0.2, "under a minute"],
    [1, "a minute"],
    [4.4, "about 4 minutes"],
    [15, "about a quarter of an hour"],
    [45, "about three quarters of an hour"],
    [60, "about an hour"],
    [90, "about 1½ hours"],
    [125, "about 2 hours"],
  ])("%f minutes are said as %s", (minutes, words) => {
    expect(minutesInWords(minutes)).toBe(words);
  });
});
