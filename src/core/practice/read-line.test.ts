import { describe, expect, test } from "vitest";
import { shippedMachine } from "../../../test/machines/shipped.ts";
import { namesFor } from "./names.ts";
import { fillIn, type Offer, readLine } from "./read-line.ts";

const machine = shippedMachine("tumble-dryer", { stages: "two" });
const repairs = new Map(
  ["heater/fit a new heater", "heater/fit a new tab", "lint/clean the way of the air"].map((id) => [
    id,
    { id, says: id.replace("/", ": ") },
  ]),
);
const names = namesFor(machine, repairs);
const pair = (from: string, to: string, joinedWith: readonly string[] = []) => ({ from, to, joinedWith });
const heat = { kind: "step", id: "heat" };

describe("a typed line means an act", () => {
  test.each([
    ["ask heat", { do: "ask", signs: ["heat"] }],
    ["Ask HEAT, drum turns", { do: "ask", signs: ["heat", "drum turns"] }],
    ["ask how warm", { do: "ask", signs: ["heat"] }],
    ["watch airflow", { do: "watch", signs: ["airflow"] }],
    ["look lint", { do: "look", at: ["lint"] }],
    ["inspect filter, exchanger", { do: "look", at: ["lint"] }],
    ["look X3.1", { do: "look", at: ["joint X3.1"] }],
    ["open back", { do: "open", access: "back" }],
    ["open lid", { do: "open", access: "board" }],
    ["put back lid", { do: "close", access: "board" }],
    ["unplug", { do: "plug out" }],
    ["unplug X3", { do: "pull", plug: "X3" }],
    ["plug x3", { do: "push", plug: "X3" }],
    ["plug in", { do: "plug in" }],
    ["prove", { do: "prove dead" }],
    ["free heater", { do: "free", part: "heater" }],
    ["hold door 0", { do: "hold", input: "door", to: 0 }],
    ["hold door", { do: "hold", input: "door", to: 1 }],
    ["count door-switch a b 20", { do: "count", pair: pair("door-switch.a", "door-switch.b"), of: 20 }],
    ["mend heater new heater", { do: "mend", course: "heater/fit a new heater" }],
    ["mend lint clean", { do: "mend", course: "lint/clean the way of the air" }],
    ["why one-shot lint", { do: "why", protector: "one-shot", reason: "lint" }],
    ["bridge the cut-out", { do: "bridge" }],
    ["verify", { do: "verify" }],
    ["finish", { do: "finish" }],
    ["stop the board is dead", { do: "stop", says: "the board is dead" }],
  ])("%s", (line, act) => {
    expect(readLine(line, names)).toEqual({ kind: "act", act });
  });

  test.each([
    ["m X3.1 X3.3", "ohms", [pair("X3.1", "X3.3")]],
    ["measure X3.1 to X3.3", "ohms", [pair("X3.1", "X3.3")]],
    ["m x3.1-3", "ohms", [pair("X3.1", "X3.3")]],
    ["m X3 1-3, 1-2", "ohms", [pair("X3.1", "X3.3"), pair("X3.1", "X3.2")]],
    ["ohms heater s1 common", "ohms", [pair("heater.s1", "heater.common")]],
    ["m X3.1 inside X3.3 inside", "ohms", [pair("X3.1 inside", "X3.3 inside")]],
    ["insulation L+N earth", "insulation ohms", [pair("plug.L", "plug.PE", ["plug.N"])]],
    ["insulation heater.s1 heater.case", "insulation ohms", [pair("heater.s1", "heater.case")]],
    ["m motor main common", "ohms", [pair("motor.main", "motor.common")]],
    ["measure µF run-cap a b", "farads", [pair("run-cap.a", "run-cap.b")]],
  ])("%s is read dead", (line, quantity, pairs) => {
    expect(readLine(line, names)).toEqual({ kind: "act", act: { do: "measure", quantity, pairs } });
  });

  test.each([
    ["measure X3.1 X1.2 in heat", "volts", [pair("X3.1", "X1.2")], heat],
    ["mv X3.1 X3.3 in heat", "volts", [pair("X3.1", "X3.3")], heat],
    ["watts heat", "watts", [], heat],
    ["watts in heat", "watts", [], heat],
    ["watts plug in heat", "watts", [], heat],
    ["volts dc X6.1 X6.2 in heat", "volts dc", [pair("X6.1", "X6.2")], heat],
    ["leakage in heat", "leakage amps", [], heat],
    ["volts X4.1 X4.3 with motor-out on", "volts", [pair("X4.1", "X4.3")], { kind: "command", id: "motor-out" }],
  ])("%s is read live", (line, quantity, pairs, run) => {
    expect(readLine(line, names)).toEqual({ kind: "act", act: { do: "measure", quantity, pairs, run } });
  });

  test("a measurement of what is not electrical is met by its words", () => {
    expect(readLine("measure load rise", names)).toEqual({
      kind: "act",
      act: { do: "gauge", cause: "lint", measure: "load rise" },
    });
  });
});

describe("what is not clear is asked back", () => {
  test("a name that fits several things offers them", () => {
    const reading = readLine("look relay", names);
    expect(reading.kind).toBe("offer");
    expect(reading.kind === "offer" ? reading.offer.items.map(({ id }) => id) : []).toContain("motor-relay");
  });

  test("a part with two remedies offers both", () => {
    const reading = readLine("mend heater", names);
    expect(reading).toMatchObject({ kind: "offer", offer: { before: "mend", several: false } });
  });

  test("a part with one remedy offers it too, so that its price is seen first", () => {
    expect(readLine("clean lint", names)).toMatchObject({ kind: "offer", offer: { of: "remedy", before: "mend" } });
    expect(readLine("mend lint/clean the way of the air", names).kind).toBe("act");
  });

  test("volts without a step offer the steps, and the number completes the line", () => {
    const reading = readLine("volts X3.1 X1.2", names);
    expect(reading).toMatchObject({ kind: "offer", offer: { of: "run", before: "measure volts X3.1 X1.2 in" } });
    const offer = reading.kind === "offer" ? reading.offer : undefined;
    const n = 1 + (offer?.items.findIndex(({ id }) => id === "heat") ?? -1);
    expect(readLine(fillIn(String(n), offer), names)).toMatchObject({ act: { run: heat, quantity: "volts" } });
  });

  test.each([
    ["lok lint", "verb", "look"],
    ["open bak", "cover", "back"],
    ["ask haet", "sign", "heat"],
    ["m X3.1 X3.9", "two points", "X3.1"],
  ])("%s: what was probably meant", (line, expected, near) => {
    expect(readLine(line, names)).toMatchObject({ kind: "unclear", expected, near });
  });

  test("a connector that has no such pin tells the pins it has", () => {
    expect(readLine("m X3 7-8", names)).toMatchObject({ near: "X3.1 · X3.3 · X3.2" });
  });
});

describe("numbers of an offered list", () => {
  const offer: Offer = {
    of: "sign",
    before: "ask",
    after: "",
    items: ["heat", "drum turns"].map((id) => ({ id, says: id })),
    several: true,
  };
  test.each([
    ["2", "ask drum turns"],
    ["1 2", "ask heat, drum turns"],
    ["all", "ask heat, drum turns"],
    ["ask 2", "ask drum turns"],
    ["watch 2", "watch 2"],
    ["3", "3"],
    ["look lint", "look lint"],
  ])("%s", (line, filled) => {
    expect(fillIn(line, offer)).toBe(filled);
  });

  test("lines that are offered are done one after the other", () => {
    expect(fillIn("all", { ...offer, of: "line", before: "" })).toBe("heat; drum turns");
  });
});
