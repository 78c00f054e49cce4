import { describe, expect, test } from "vitest";
import {
  accessGroup,
  type HandPart,
  handCause,
  handMachine,
  handPlug,
  handPoint,
} from "../../../test/machines/hand-case.ts";
import { ids, type Odds, plan, runStep, yes } from "../../../test/machines/hand-plan.ts";
import { probeOf } from "../predict/index.ts";
import type { WorkState } from "./work-state.ts";

describe("live work", () => {
  const two: HandPart[] = [
    { id: "heater", part: 0.1, access: "back", between: [0, 1] },
    { id: "relay", part: 0.1, access: "side", between: [0, 1] },
  ];
  const points = [handPoint("X.1", 0, "clipped", "top"), handPoint("X.2", 1, "clipped", "top")];
  const machine = handMachine(two, {
    access: [accessGroup("back", 40), accessGroup("side", 40), accessGroup("top", 4)],
    points,
    plugs: [handPlug("X", [0, 1], "top")],
    steps: [runStep],
  });
  const odds: Odds = [
    [["heater"], 1],
    [["relay"], 1],
  ];
  const dead = probeOf({
    quantity: "ohms",
    from: "X.1",
    to: "X.2",
    state: { kind: "dead", pulled: [], freed: [], hands: new Map() },
  }).id;
  const live = probeOf({ quantity: "volts", from: "X.1", to: "X.2", state: { kind: "live", step: "run" } }).id;
  const parts = { outcomes: ["0 V", "230 V"], chance: yes(["relay"]) };

  test("is not offered beside a dead reading that says the same", () => {
    const made = plan(machine, two, odds, { [dead]: parts, [live]: parts });
    expect(ids(made)).toContain("at:X");
    expect(ids(made)).not.toContain("at:X/clipped/run");
  });

  test("is offered, clipped, where nothing dead can tell and it saves more than the margin of 10", () => {
    const made = plan(machine, two, odds, { [live]: parts });
    const step = made.steps.find((one) => one.id === "at:X/clipped/run");
    expect(step?.energy).toBe("clipped");
    expect(step?.setUp.map((act) => act.do)).toEqual([
      "plug out",
      "open",
      "prove dead",
      "take",
      "clip leads on",
      "plug in through an RCD lead",
    ]);
    expect(step?.cautions.map((one) => one.code)).toEqual(
      expect.arrayContaining(["clipped", "rcd-lead", "prove-dead"]),
    );
    const strict = plan(machine, two, odds, { [live]: parts }, { shop: { liveMargin: 500 } });
    expect(ids(strict)).not.toContain("at:X/clipped/run");
  });

  test("by hand is off: a connector that cannot be clipped is not read live until the shop turns it on", () => {
    const bare = { ...machine, points: points.map((point) => ({ ...point, live: "handheld" as const })) };
    expect(ids(plan(bare, two, odds, { [live]: parts }))).not.toContain("at:X/handheld/run");
    const on = plan(bare, two, odds, { [live]: parts }, { shop: { handheld: true } });
    expect(ids(on)).toContain("at:X/handheld/run");
  });

  test("is never set up behind a cover with which the machine may not run", () => {
    const shut = {
      ...machine,
      access: [accessGroup("back", 40), accessGroup("side", 40), accessGroup("top", 4, { mayRun: "no" })],
    };
    expect(ids(plan(shut, two, odds, { [live]: parts }))).not.toContain("at:X/clipped/run");
  });

  test("asks for a new proof of being dead after every energising, and for none while it holds", () => {
    const acts = (state: Partial<WorkState>): string[] =>
      plan(machine, two, odds, { [dead]: parts }, { state: { open: new Set(["top"]), position: "stands", ...state } })
        .steps.find((step) => step.id === "at:X")
        ?.setUp.map((act) => act.do) ?? [];
    expect(acts({ energy: "live", provedDead: false })).toEqual(["plug out", "prove dead", "take"]);
    expect(acts({ energy: "plug out", provedDead: true })).toEqual(["take"]);
  });
});

describe("an open protector", () => {
  const parts: HandPart[] = [{ id: "fuse", part: 0.03, access: "back", victim: true }];
  const lint = { says: "brown lint", odds: { hit: 0.9, falseAlarm: 0.1 }, minutes: 2, cautions: ["lint burns"] };
  const machine = handMachine(parts, {
    access: [accessGroup("back", 10)],
    causes: [handCause("lint", lint)],
    whyOpen: new Map([
      [
        "fuse",
        new Map([
          ["lint", 0.65],
          ["switched off in mid-heat", 0.05],
          ["itself", 0.3],
        ]),
      ],
    ]),
  });
  const odds: Odds = [[["fuse"], 1]];

  test("is asked why it opened before it is replaced, and comes back in 7 of 10 otherwise", () => {
    const made = plan(machine, parts, odds, {});
    expect(made.unanswered.map((one) => one.protector)).toEqual(["fuse"]);
    expect(made.mayClose).toBe(false);
    const order = ids(made);
    expect(order.indexOf("why:fuse/lint")).toBeGreaterThanOrEqual(0);
    expect(order.indexOf("why:fuse/lint")).toBeLessThan(order.indexOf("do:fuse/new"));
    expect(order.indexOf("why:fuse/switched off in mid-heat")).toBeLessThan(order.indexOf("do:fuse/new"));
    const repair = made.steps.find((step) => step.id === "do:fuse/new");
    expect(repair?.waitsForWhy).toBe("fuse");
    expect(repair?.course?.back).toBeCloseTo(0.7, 12);
  });

  test("may close once the reason is written down and the repair was looked at", () => {
    const repair = { event: "e1", remedy: "new", on: "fuse", looked: true, path: [] };
    const state = { whys: new Map([["fuse", "lint"]]), repairs: [repair] };
    const made = plan(machine, parts, odds, {}, { state });
    expect(made.mayClose).toBe(true);
    expect(made.steps.find((step) => step.id === "do:fuse/new")?.waitsForWhy).toBeUndefined();
    expect(plan(machine, parts, odds, {}, { state: { repairs: [repair] } }).mayClose).toBe(false);
  });
});
