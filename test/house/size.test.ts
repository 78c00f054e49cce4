import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";

const sources = ["src", "test", "bench", "scripts"].flatMap((root) =>
  readdirSync(root, { recursive: true, encoding: "utf8" })
    .map((file) => `${root}/${file.replaceAll("\\", "/")}`)
    .filter((file) => /\.(ts|mjs)$/.test(file)),
);

test("no source file is over 400 lines", () => {
  const long = sources
    .map((file) => [file, readFileSync(file, "utf8").split("\n").length] as const)
    .filter(([, lines]) => lines > 400);
  expect(long).toEqual([]);
});

test("no test is skipped, singled out or left for later", () => {
  const marks = /\b(?:it|test|describe)\.(?:skip|only|todo)\b/;
  expect(
    sources.filter((file) => !file.startsWith("test/house/size") && marks.test(readFileSync(file, "utf8"))),
  ).toEqual([]);
});

test("no folder is a drawer for leftovers", () => {
  expect(sources.filter((file) => /\/(utils?|helpers?|common|misc|shared|types)\//.test(file))).toEqual([]);
});
