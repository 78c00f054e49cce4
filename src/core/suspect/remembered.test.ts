import { expect, it } from "vitest";
import { handheld } from "../../../test/machines/shipped-case.ts";
import type { Probe } from "../predict/index.ts";
import type { Observation } from "../sign/index.ts";
import { Remembered } from "./remembered.ts";

const meter = handheld();
const probe: Probe = {
  id: "ohms a–b",
  quantity: "ohms",
  state: { kind: "dead", pulled: [], freed: [], hands: new Map() },
};
const reading = (value: number, by = meter): Observation => ({
  kind: "reading",
  probe: { ...probe },
  meter: by,
  leads: "nulled",
  shown: { kind: "value", value },
});
const told = (answer: string): Observation => ({ kind: "sign", sign: "heat", answer, witness: "told" });

it("knows an observation again by what it says, and no other: another value, meter, answer or witness", () => {
  const kept = new Remembered<string>();
  kept.set(reading(26.4), "26.4 ohms");
  kept.set(told("cold"), "cold");
  expect(kept.get(reading(26.4))).toBe("26.4 ohms");
  expect(kept.get(reading(26.5))).toBeUndefined();
  expect(kept.get(reading(26.4, { ...meter }))).toBeUndefined();
  expect(kept.get(told("cold"))).toBe("cold");
  expect(kept.get(told("warm"))).toBeUndefined();
  expect(kept.get({ kind: "sign", sign: "heat", answer: "cold", witness: "seen" })).toBeUndefined();
});

it("keeps the 64 asked for last", () => {
  const kept = new Remembered<number>();
  for (let value = 0; value < 64; value++) kept.set(reading(value), value);
  expect(kept.get(reading(0))).toBe(0);
  kept.set(reading(64), 64);
  expect(kept.get(reading(0))).toBe(0);
  expect(kept.get(reading(1))).toBeUndefined();
  expect(kept.get(reading(2))).toBe(2);
});
