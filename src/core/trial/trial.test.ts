import { describe, expect, test } from "vitest";
import { commonestType, shippedTrial } from "../../../test/machines/shipped-trial.ts";
import { seeded } from "../chance/index.ts";
import { probeOf } from "../predict/index.ts";
import type { Observation } from "../sign/index.ts";
import { drawMachine } from "./drawn-machine.ts";
import { HiddenMachine, Truth } from "./hidden-machine.ts";
import { summaryOf } from "./summary.ts";
import { blockCount, blockOf, playBlock } from "./trial.ts";

const ask = shippedTrial("tumble-dryer");

describe("machines are played by seed and number", () => {
  const two = playBlock(ask, 0, 2);

  test("the same twice, bill by bill", () => {
    expect(playBlock(ask, 0, 2)).toEqual(two);
  });

  test("the same beside others: the first 2 of 3 machines are those of 2", () => {
    const three = playBlock(ask, 0, 3);
    expect(three.filter(({ machine }) => machine < 2)).toEqual(two);
    expect(three).toHaveLength(6);
  });

  test("others for another seed", () => {
    expect(playBlock({ ...ask, seed: "2" }, 0, 2).map(({ fault, bill }) => [fault, bill.money])).not.toEqual(
      two.map(({ fault, bill }) => [fault, bill.money]),
    );
  });

  test("by 50 of one type: 101 machines are 3 blocks, and number 100 is in the last", () => {
    expect(blockCount(101)).toBe(3);
    expect(blockOf(100)).toBe(2);
    expect(blockOf(99)).toBe(1);
  });
});

describe("honest answers", () => {
  test("never leave the true fault with odds under one in a million, on 10 dryers asked every sign and 6 readings", () => {
    const type = commonestType(ask);
    const [{ machine }] = type.truth.candidates;
    const meter = ask.meters.get("handheld-6000");
    if (meter === undefined) throw new Error("the shipped meter is gone");
    const pins = machine.points.filter(({ plug }) => plug !== undefined).slice(0, 7);
    let least = 1;
    for (let n = 0; n < 10; n++) {
      const drawn = drawMachine(type.truth, seeded("honest").fork(String(n)), { spread: true });
      const errors = { slips: 0, meters: true, witnesses: false };
      const hidden = new HiddenMachine(new Truth(drawn, seeded(`answers ${n}`), errors, ask.shop));
      const seen = machine.signs.flatMap((sign): Observation[] => {
        const answer = hidden.answer(sign.id, "seen", "0");
        return answer === undefined ? [] : [{ kind: "sign", sign: sign.id, answer, witness: "seen" }];
      });
      const read = pins.slice(1).flatMap(({ id }): Observation[] => {
        const probe = probeOf({
          quantity: "ohms",
          from: pins[0].id,
          to: id,
          state: { kind: "dead", pulled: [], freed: [], hands: new Map() },
        });
        const shown = hidden.read(probe, meter, "0");
        return shown === undefined ? [] : [{ kind: "reading", probe, meter, leads: "nulled", shown }];
      });
      expect(read.length).toBe(6);
      expect(hidden.honest).toBe(true);
      const { modes } = type.truth.update([...seen, ...read]);
      for (const fault of drawn.faults) least = Math.min(least, modes.find(({ mode }) => mode === fault.id)?.p ?? 0);
    }
    expect(least).toBeGreaterThan(1e-6);
  });
});

describe("a summary", () => {
  test("pairs the strategies machine by machine, and the wrong sheet with the right one", () => {
    const played = playBlock({ ...ask, wrong: "rates" }, 0, 2);
    const summary = summaryOf(played);
    expect(played).toHaveLength(8);
    expect(summary.machines).toBe(2);
    const mean = (sheet: string, strategy: string): number => {
      const money = played
        .filter((one) => one.sheet === sheet && one.strategy === strategy)
        .map(({ bill }) => bill.money);
      return money.reduce((sum, x) => sum + x, 0) / money.length;
    };
    expect(summary.right.strategies.map(({ money }) => money.value)).toEqual([
      mean("right", "swap"),
      mean("right", "test"),
    ]);
    const dearer = summary.wrong?.dearer.find(({ strategy }) => strategy === "swap")?.share.value;
    expect(dearer).toBeCloseTo(mean("wrong", "swap") / mean("right", "swap") - 1, 9);
  });

  test("tells of what was given up in how much the fault was known: 1 of 2 left, the mended one not counted", () => {
    const [one] = playBlock(ask, 0, 1);
    const plan = (mended: boolean, leastAtEnd: number) =>
      ({ ...one, strategy: "plan", bill: { ...one.bill, mended }, leastAtEnd }) as const;
    const { right } = summaryOf([plan(false, 0.9), plan(false, 0.1), plan(true, 1)]);
    expect(right.knownButLeft.value).toBe(0.5);
  });
});
