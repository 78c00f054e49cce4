import { describe, expect, test } from "vitest";
import { commonestType, shippedTrial } from "../../../test/machines/shipped-trial.ts";
import { seeded } from "../chance/index.ts";
import type { Mode } from "../fault/index.ts";
import { pickRange } from "../meter/index.ts";
import { Predictor, probeOf } from "../predict/index.ts";
import { drawMachine } from "./drawn-machine.ts";
import { NO_ERRORS, USUAL_ERRORS } from "./errors.ts";
import { HiddenMachine, Truth } from "./hidden-machine.ts";

const ask = shippedTrial("tumble-dryer");
const { truth } = commonestType(ask);
const [{ machine, modes }] = truth.candidates;
const meter = ask.meters.get("handheld-6000");
if (meter === undefined) throw new Error("the shipped meter is gone");

function modeOf(id: string): Mode {
  const mode = modes.find((one) => one.id === id);
  if (mode === undefined) throw new Error(`the shipped dryer has no ${id}`);
  return mode;
}

const sound = drawMachine(truth, seeded("sound"), { spread: false });
const solved = new Map<string, Predictor>();

/** The commonest dryer with these faults and exact numbers. */
function hiddenWith(ids: readonly string[], errors = NO_ERRORS, failsOn = 1, seed = "1"): HiddenMachine {
  const faults = ids.map((id) => ({ ...modeOf(id), severities: [{ ...modeOf(id).severities[0], weight: 1 }] }));
  const key = ids.join(" ");
  const predictor = solved.get(key) ?? new Predictor(sound.machine, faults);
  solved.set(key, predictor);
  const { modes: same } = predictor;
  return new HiddenMachine(new Truth({ ...sound, faults: same, failsOn }, seeded(seed), errors, ask.shop, predictor));
}

const ohmsOf = (part: string, from: string, to: string) =>
  probeOf({
    quantity: "ohms",
    from: `${part}.${from}`,
    to: `${part}.${to}`,
    state: { kind: "dead", pulled: [], freed: [part], hands: new Map() },
  });
const capacitor = probeOf({ ...ohmsOf("run-cap", "a", "b"), quantity: "farads" });
const farads = ask.meters.get("capacitance");
if (farads === undefined) throw new Error("the shipped capacitance meter is gone");

describe("a dryer with a hidden fault, without any error", () => {
  test("heater all open: over limit across it, cold, and the drum turns", () => {
    const hidden = hiddenWith(["heater/all open"]);
    expect(hidden.read(ohmsOf("heater", "common", "s1"), meter, "0")).toEqual({ kind: "over limit" });
    expect(hidden.answer("heat", "seen", "0")).toBe("cold");
    expect(hidden.answer("drum turns", "seen", "0")).toBe("yes");
    expect(hidden.honest).toBe(true);
  });

  test("lint alone: the heater reads U²/P of its stage, as its plate has it, and the airway looks bad", () => {
    const hidden = hiddenWith(["lint"]);
    const shown = hidden.read(ohmsOf("heater", "common", "s1"), meter, "0");
    const plate = machine.parameters.find(({ id }) => id.startsWith("heater") && id.endsWith("P"))?.rated.nominal;
    if (shown?.kind !== "value" || plate === undefined) throw new Error("no ohms, or no plate power");
    const range = pickRange(meter, "ohms", shown.value);
    // One stage has all the plate's power, two have half of it each.
    const stages = machine.choice.get("stages") === "two" ? [1, 2] : [1];
    const near = stages.some(
      (n) => Math.abs(shown.value - 230 ** 2 / (plate / n)) < 2 * (range?.resolution ?? 1) + 0.1,
    );
    expect(near).toBe(true);
    expect(hidden.look("lint", undefined)).toBe("bad");
    expect(hidden.look("belt", undefined)).toBe("good");
  });

  test("eyes see a jammed pump, and no coil that is open", () => {
    expect(hiddenWith(["pump/jammed with lint"]).look("pump", undefined)).toBe("bad");
    expect(hiddenWith(["pump/coil open"]).look("pump", undefined)).toBe("good");
  });

  test("a mended fault is gone from signs and readings; the wrong remedy changes nothing", () => {
    const hidden = hiddenWith(["belt"]);
    expect(hidden.answer("drum turns", "seen", "0")).toBe("no");
    expect(hidden.mend({ id: "lint/clean the whole way of the air" })).toBe(false);
    expect(hidden.answer("drum turns", "seen", "1")).toBe("no");
    const cured = Array.from({ length: 200 }, (_, n) => {
      const one = hiddenWith(["belt"], NO_ERRORS, 1, `luck ${n}`);
      expect(one.mend({ id: "belt/fit a new belt" })).toBe(true);
      return one.answer("drum turns", "seen", "2") === "yes";
    });
    // The sheet: 95 in 100.
    const share = cured.filter(Boolean).length / 200;
    expect(share).toBeGreaterThan(0.88);
    expect(share).toBeLessThan(1);
  });

  test("what did not cure once cures the second time in about half, and never after that", () => {
    const belt = { id: "belt/fit a new belt" };
    const failed = Array.from({ length: 1000 }, (_, n) => hiddenWith(["belt"], NO_ERRORS, 1, `luck ${n}`)).filter(
      (one) => {
        one.mend(belt);
        return one.faults.length > 0;
      },
    );
    expect(failed.length).toBeGreaterThan(20);
    const still = failed.filter((one) => {
      one.mend(belt);
      return one.faults.length > 0;
    });
    // 1 - 0.95 / 2 of them, within four standard deviations.
    const share = still.length / failed.length;
    expect(Math.abs(share - 0.525)).toBeLessThan(4 * Math.sqrt((0.525 * 0.475) / failed.length));
    for (const one of still) for (let n = 0; n < 5; n++) one.mend(belt);
    expect(still.every(({ faults }) => faults.map(({ id }) => id).join() === "belt")).toBe(true);
  });

  test("a question asked twice at one stage has one answer", () => {
    const hidden = hiddenWith(["run-cap/low value"], USUAL_ERRORS);
    const first = hidden.read(capacitor, farads, "0");
    expect(hidden.read(capacitor, farads, "0")).toEqual(first);
  });

  test("a closed job comes back for sure while its fault shows, and by the remedy's own odds once cured: 5 in 100 of belts", () => {
    expect(hiddenWith(["belt"]).comesBack()).toBe(true);
    const mended = Array.from({ length: 400 }, (_, n) => hiddenWith(["belt"], NO_ERRORS, 1, `back ${n}`)).filter(
      (one) => {
        one.mend({ id: "belt/fit a new belt" });
        return one.faults.length === 0;
      },
    );
    const back = mended.filter((one) => one.comesBack()).length / mended.length;
    expect(back).toBeGreaterThan(0.01);
    expect(back).toBeLessThan(0.1);
  });

  test("a protector whose cause is still there comes back, whatever the luck of its own mending", () => {
    const mended = Array.from({ length: 30 }, (_, n) =>
      hiddenWith(["lint", "one-shot/blown (victim)"], NO_ERRORS, 1, `why ${n}`),
    )
      .filter((one) => one.mend({ id: "one-shot/find the cause and fit a new one of the same print" }))
      .filter((one) => one.faults.length === 1);
    expect(modeOf("one-shot/blown (victim)").victim).toBe(true);
    expect(mended.length).toBeGreaterThan(20);
    expect(mended.every((one) => one.comesBack())).toBe(true);
  });
});

describe("errors come at their rates", () => {
  const many = (count: number, of: (seed: string) => boolean): number =>
    Array.from({ length: count }, (_, n) => of(`try ${n}`)).filter(Boolean).length / count;

  test("a slip in 2 readings of 100, over 1000: within 4 standard errors", () => {
    const slipped = many(1000, (seed) => {
      const hidden = hiddenWith(["lint"], { ...NO_ERRORS, slips: 0.02 }, 1, seed);
      hidden.read(probeOf({ ...ohmsOf("heater", "common", "s1"), from: "X3.1", to: "X3.3" }), meter, "0");
      return !hidden.honest;
    });
    expect(Math.abs(slipped - 0.02)).toBeLessThan(4 * Math.sqrt((0.02 * 0.98) / 1000));
  });

  test("a customer says that a still drum turns in 3 of 100, as the sheet has it, over 1000", () => {
    const wrong = many(
      1000,
      (seed) =>
        hiddenWith(["belt"], { ...NO_ERRORS, witnesses: true }, 1, seed).answer("drum turns", "told", "0") === "yes",
    );
    expect(Math.abs(wrong - 0.03)).toBeLessThan(4 * Math.sqrt((0.03 * 0.97) / 1000));
  });

  test("eyes miss lint in 8 looks of 100, as the sheet has it, over 1000", () => {
    const missed = many(
      1000,
      (seed) => hiddenWith(["lint"], { ...NO_ERRORS, witnesses: true }, 1, seed).look("lint", undefined) === "good",
    );
    expect(Math.abs(missed - 0.08)).toBeLessThan(4 * Math.sqrt((0.08 * 0.92) / 1000));
  });

  test("a fault of half the runs is there in half of 2000 runs, and in half of 2000 operations", () => {
    const hidden = hiddenWith(["belt"], NO_ERRORS, 0.5);
    const still = Array.from({ length: 2000 }, (_, run) => hidden.answer("drum turns", "seen", String(run)) === "no");
    expect(Math.abs(still.filter(Boolean).length / 2000 - 0.5)).toBeLessThan(4 * Math.sqrt(0.25 / 2000));
    const contact = hiddenWith(["heater/all open"], NO_ERRORS, 0.5);
    const good = contact.count(ohmsOf("heater", "common", "s1"), 2000) ?? 0;
    expect(Math.abs(good / 2000 - 0.5)).toBeLessThan(4 * Math.sqrt(0.25 / 2000));
  });

  test("a meter errs within what its maker promises: 2000 readings of one heater", () => {
    const exact = hiddenWith(["lint"]).read(ohmsOf("heater", "common", "s1"), meter, "0");
    if (exact?.kind !== "value") throw new Error("no ohms");
    const range = pickRange(meter, "ohms", exact.value);
    if (range === undefined) throw new Error("no range");
    const limit = range.shareOfReading * exact.value + (range.counts + 1) * range.resolution + 3 * meter.nulledOhms;
    const errors = Array.from({ length: 2000 }, (_, n) => {
      const read = hiddenWith(["lint"], { ...NO_ERRORS, meters: true }, 1, `m ${n}`).read(
        ohmsOf("heater", "common", "s1"),
        meter,
        "0",
      );
      return read?.kind === "value" ? Math.abs(read.value - exact.value) : Number.POSITIVE_INFINITY;
    });
    expect(Math.max(...errors)).toBeLessThanOrEqual(limit);
    expect(Math.max(...errors)).toBeGreaterThan(limit / 3);
  });
});
