import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { expect, test } from "vitest";
import { faultwright } from "./run-command.ts";

// What a person reads in the terminal. `npm run golden` writes the files anew; the diff is to be read before it is committed.
const write = process.env.FAULTWRIGHT_GOLDEN === "write";

const commands: readonly (readonly [string, readonly string[]])[] = [
  ["next-cold-one-pole", ["next", "examples/cold-one-pole.yaml"]],
  ["next-cold-victim-of-lint", ["next", "examples/cold-victim-of-lint.yaml"]],
  ["next-hums", ["next", "examples/hums.yaml"]],
  ["next-always-damp", ["next", "examples/always-damp.yaml"]],
  ["ask-always-damp", ["ask", "examples/always-damp.yaml"]],
  ["faults-why-cold-one-pole", ["faults", "examples/cold-one-pole.yaml", "--why"]],
  ["branch", ["branch", "plug,cord,switch,cutout,heater:2kW,relay"]],
  ["readings", ["readings", "tumble-dryer", "--answer", "stages=one"]],
  ["readings-probe", ["readings", "tumble-dryer", "--probe", "watts heat"]],
  [
    "safety",
    [
      "safety",
      "--rules",
      "uk-4",
      "--class",
      "I",
      "--cord",
      "2",
      "--section",
      "1",
      "--heating",
      "2000",
      "--look",
      "pass",
      "--earth",
      "0.12 ±0.01",
    ],
  ],
  ["bench", ["bench", "relay", "poles=2", "coil=360R ±10%", "U=230 V", "--celsius", "22"]],
  ["powerlog", ["powerlog", "examples/logs/half-the-heat.csv", "--sheet", "dishwasher"]],
  ["prove-operations", ["prove", "operations", "--good", "10", "--of", "10", "--minutes", "0.3"]],
  ["prove-contact", ["prove", "contact", "--drop", "120 mV ±2 mV", "--amperes", "9 A ±0.2 A"]],
  [
    "prove-heat-up",
    [
      "prove",
      "heat-up",
      "--litres",
      "4 L ±10%",
      "--from",
      "15 ±1",
      "--to",
      "60 ±1",
      "--time",
      "9.5 min",
      "--watts",
      "2000",
    ],
  ],
];

test.each(commands)("the output of %s is the golden one", (name, args) => {
  const ran = faultwright(...args);
  expect(ran.err).toBe("");
  expect(ran.code).toBe(0);
  const file = `test/cli/golden/${name}.txt`;
  if (write || !existsSync(file)) {
    expect(write, `${file} is missing: npm run golden`).toBe(true);
    mkdirSync("test/cli/golden", { recursive: true });
    writeFileSync(file, ran.out);
  }
  expect(ran.out).toBe(readFileSync(file, "utf8"));
});
