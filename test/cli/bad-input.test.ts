import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { faultwright } from "./run-command.ts";

const folder = mkdtempSync(join(tmpdir(), "faultwright-bad-"));
afterAll(() => rmSync(folder, { recursive: true }));

function file(name: string, text: string | Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

const job = `format: faultwright-job/1
job: x
sheet: tumble-dryer
shop: demo-shop
complaint: cold
`;

describe("bad input ends with code 2, every fault named, no stack trace, nothing on standard output", () => {
  test.each([
    ["a file that is not there", ["next", join(folder, "none.yaml")], ["file.not-found"]],
    ["a folder", ["next", folder], ["file.is-a-folder"]],
    [
      "a file of 50 MB",
      ["checksheet", file("big.yaml", new Uint8Array(50 << 20).fill(97))],
      ["file.too-large", "50.0 MB"],
    ],
    [
      "a power log of 65 MB",
      ["powerlog", file("big.csv", new Uint8Array(65 << 20).fill(49))],
      ["file.too-large", "at most 64 MB"],
    ],
    [
      "a power log that is none",
      ["powerlog", file("words.csv", "a wash\nof two hours\n")],
      ["powerlog.form", "words.csv"],
    ],
    [
      "rows of a power log that cannot be read, each with its line",
      ["powerlog", file("rows.csv", "t,W\n0,5\nx,6\ny,7\n")],
      ["rows.csv:3", "rows.csv:4", "powerlog.rows"],
    ],
    ["bytes that are no text", ["next", file("bytes.yaml", new Uint8Array([0xff, 0xfe, 0, 1]))], ["file.not-text"]],
    [
      "a bomb of aliases",
      ["checksheet", file("bomb.yaml", "a: &a [x, x]\nb: &b [*a, *a]\nc: [*b, *b]\n")],
      ["bomb.yaml:1"],
    ],
    [
      "three faults in one job, each with its line",
      [
        "next",
        file(
          "three.yaml",
          `${job}events:\n  - told: {drum trns: "yes"}\n  - measured: {from: X3.1, to: X3.99, shows: 26}\n  - opened: roof\n`,
        ),
      ],
      ["drum trns", "three.yaml:7", "X3.99", "three.yaml:8", "roof", "three.yaml:9"],
    ],
    [
      "ohms given in watts",
      ["next", file("unit.yaml", `${job}events:\n  - measured: {from: X3.1, to: X3.3, shows: 26 W}\n`)],
      ["26 W"],
    ],
    [
      "negative ohms",
      ["next", file("minus.yaml", `${job}events:\n  - measured: {from: X3.1, to: X3.3, shows: -5}\n`)],
      ["-5"],
    ],
    ["an unknown sheet", ["readings", "tumble-drier"], ["tumble-drier", "Did you mean tumble-dryer?"]],
    ["an unknown kind in a branch", ["branch", "plug,swich"], ["swich", "Did you mean switch?"]],
    ["an answer no variant has", ["readings", "tumble-dryer", "--answer", "stages=three"], ["three"]],
    ["JSON that breaks off", ["table", "suspects", file("cut.json", '{"format": ')], ["json.syntax"]],
    ["an evidence file of another form", ["table", "suspects", file("form.json", "{}")], ["format"]],
    [
      "a deck with an unknown card",
      ["deck", file("d.cir", "t\nq1 a b c\n"), "--ask", file("a.json", '{"hertz":50,"questions":[]}')],
      ["d.cir:2"],
    ],
    ["an unknown command", ["nxt"], ["unknown command"]],
  ])("%s", (_what, args, told) => {
    const ran = faultwright(...args);
    expect(ran.out).toBe("");
    for (const piece of told) expect(ran.err).toContain(piece);
    expect(ran.err).not.toMatch(/\n\s+at .*:\d+:\d+/);
    expect(ran.code).toBe(2);
  });
});

test("a command that asks for help or version ends with code 0", () => {
  expect(faultwright("--version")).toMatchObject({ code: 0, err: "" });
  expect(faultwright("next", "--help").out).toContain("Example:");
});
