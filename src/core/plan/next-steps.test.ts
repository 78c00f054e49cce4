import { describe, expect, test } from "vitest";
import {
  accessGroup,
  HAND_SHOP,
  type HandPart,
  type HandTable,
  handCase,
  handCause,
  handMachine,
  handPlug,
  handPoint,
} from "../../../test/machines/hand-case.ts";
import type { Meter } from "../meter/index.ts";
import { probeOf } from "../predict/index.ts";
import type { Shop } from "../remedy/index.ts";
import type { Machine, SignRule, Step } from "../sheet/index.ts";
import { nextSteps } from "./next-steps.ts";
import type { Plan } from "./plan.ts";
import { ARRIVAL, type WorkState } from "./work-state.ts";

const METERS: ReadonlyMap<string, Meter> = new Map();

const yes =
  (hit: readonly string[]): HandTable =>
  (faulty) =>
    faulty.some((id) => hit.includes(id)) ? [1, 0] : [0, 1];

function signRule(id: string, more: Partial<SignRule> = {}): SignRule {
  const odds = { hit: 0.9, falseAlarm: 0.1 };
  return {
    id,
    ask: `${id}?`,
    answers: ["yes", "no"],
    rule: { kind: "test", test: { all: [] } },
    told: odds,
    heard: odds,
    seen: odds,
    in: "run",
    ...more,
  };
}

const runStep: Step = { id: "run", drives: [{ output: 0 }], entersIf: [], needs: [], timeOuts: [] };

type Odds = readonly (readonly [readonly string[], number])[];
type Tables = Parameters<typeof handCase>[3];

function plan(
  machine: Machine,
  parts: readonly HandPart[],
  odds: Odds,
  tables: Tables,
  more: { state?: Partial<WorkState>; shop?: Partial<Shop>; authority?: number; telephone?: boolean } = {},
): Plan {
  const { case: the, belief } = handCase(machine, parts, odds, tables);
  return nextSteps(
    the,
    belief,
    { ...ARRIVAL, ...more.state },
    { ...HAND_SHOP, ...more.shop },
    {
      meters: METERS,
      ...(more.authority === undefined ? {} : { authority: more.authority }),
      ...(more.telephone === true ? { where: "telephone" as const } : {}),
    },
  );
}

const ids = (made: Plan): string[] => made.steps.map((step) => step.id);

describe("the next step", () => {
  const two: HandPart[] = [
    { id: "pump", part: 0.1, access: "back" },
    { id: "belt", part: 0.1, access: "side" },
  ];
  const covers = { access: [accessGroup("back", 12), accessGroup("side", 12)] };

  test("is the free question that parts two suspects of 5 in 10 each, before any cover of 12 minutes", () => {
    const machine = handMachine(two, { ...covers, signs: [signRule("hums"), signRule("says nothing")] });
    const made = plan(
      machine,
      two,
      [
        [["pump"], 1],
        [["belt"], 1],
      ],
      {
        "told:hums": {
          outcomes: ["yes", "no"],
          chance: (faulty) => (faulty.includes("pump") ? [0.95, 0.05] : [0.05, 0.95]),
        },
      },
    );
    expect(ids(made)[0]).toBe("ask:customer");
    // A question that tells nothing is not asked at all.
    expect(made.steps[0]?.questions.map((question) => question.says)).toEqual(["hums?"]);
    expect(made.steps[0]?.settles).toBe("parts pump from belt");
    expect(made.steps[0]?.worth).toBeGreaterThan(0);
  });

  test("leaves a question alone when its answer is worth less than its half minute", () => {
    const machine = handMachine(two, { ...covers, signs: [signRule("hums")] });
    const nearlySure: Odds = [
      [["pump"], 0.999],
      [["belt"], 0.001],
    ];
    const made = plan(machine, two, nearlySure, { "told:hums": { outcomes: ["yes", "no"], chance: yes(["pump"]) } });
    expect(ids(made)).not.toContain("ask:customer");
    expect(ids(made)[0]).toBe("do:pump/new");
  });

  test("halves a chain of 8 behind one cover: the first reading taken has four suspects on either side", () => {
    const chain = Array.from(
      { length: 8 },
      (_, n): HandPart => ({
        id: `link${n}`,
        part: 0.05,
        access: "back",
        between: [n, n + 1],
      }),
    );
    const points = Array.from({ length: 9 }, (_, n) => handPoint(`X.${n + 1}`, n, "never", "top"));
    const machine = handMachine(chain, {
      access: [accessGroup("back", 20), accessGroup("top", 4)],
      points,
      plugs: [handPlug("X", [0, 4, 8], "top")],
    });
    const tables: Record<string, Tables[string]> = {};
    for (const [from, to] of [
      [0, 4],
      [0, 8],
      [4, 8],
    ] as const) {
      const inside = chain.slice(from, to).map((part) => part.id);
      const probe = probeOf({
        quantity: "ohms",
        from: `X.${from + 1}`,
        to: `X.${to + 1}`,
        state: { kind: "dead", pulled: [], freed: [], hands: new Map() },
      });
      tables[probe.id] = { outcomes: ["OL", "26 Ω"], chance: yes(inside) };
    }
    const made = plan(
      machine,
      chain,
      chain.map((part) => [[part.id], 1] as const),
      tables,
    );
    const first = made.steps[0];
    expect(first?.id).toBe("at:X");
    expect(first?.energy).toBe("plug out");
    // One reading is enough: the whole branch is known to be open, so each half says what the other would.
    expect(first?.questions).toHaveLength(1);
    expect(first?.questions[0]?.says).toMatch(/X\.5/);
    expect(first?.outcomes.map((outcome) => outcome.chance)).toEqual([0.5, 0.5]);
    expect(first?.setUp.map((act) => act.do)).toEqual(["plug out", "open", "prove dead", "take"]);
  });

  test("prefers two suspects of 3 in 10 behind one cover to one of 4 in 10 behind another", () => {
    const three: HandPart[] = [
      { id: "alone", part: 0.3, access: "side", looks: "burnt" },
      { id: "one", part: 0.3, access: "back", looks: "burnt" },
      { id: "other", part: 0.3, access: "back", looks: "burnt" },
    ];
    const look = (id: string) => ({
      outcomes: ["bad", "good"],
      chance: (faulty: readonly string[]) => (faulty.includes(id) ? [0.95, 0.05] : [0.02, 0.98]),
    });
    const made = plan(
      handMachine(three, { access: [accessGroup("side", 14), accessGroup("back", 14)] }),
      three,
      [
        [["alone"], 4],
        [["one"], 3],
        [["other"], 3],
      ],
      { "look:alone": look("alone"), "look:one": look("one"), "look:other": look("other") },
    );
    expect(ids(made)[0]).toBe("look:back");
    expect(made.steps[0]?.questions.map((question) => question.says)).toEqual(["one", "other"]);
  });

  test("stops when every repair costs 480 and the machine is worth 300", () => {
    const dear: HandPart[] = [{ id: "motor", part: 0.75, access: "back" }];
    const made = plan(handMachine(dear, covers), dear, [[["motor"], 1]], {}, { shop: { newMachine: 600 } });
    expect(made.steps[0]?.id).toBe("stop");
    expect(made.steps[0]?.expectedCost).toBe(310);
    const cheap: HandPart[] = [{ id: "motor", part: 0.05, access: "back" }];
    expect(plan(handMachine(cheap, covers), cheap, [[["motor"], 1]], {}).steps[0]?.id).toBe("do:motor/new");
  });

  test("repairs the joint for 15 before it swaps the board for 200, when the joint holds 6 in 10 of the board's faults", () => {
    const board: HandPart[] = [
      { id: "solder joint", of: "control", minutes: 15, cured: 0.88, access: "back" },
      { id: "logic", of: "control", minutes: 15, part: 1.5, access: "back" },
    ];
    const machine = handMachine(board, {
      ...covers,
      assemblies: [
        {
          id: "control",
          says: "control board",
          access: "back",
          minutes: { nominal: 15, lo: 15, hi: 15, spread: "exact" },
          partShare: { nominal: 0.33, lo: 0.33, hi: 0.33, spread: "exact" },
          cured: 0.93,
          back: 0.05,
          coding: true,
        },
      ],
    });
    const made = ids(
      plan(
        machine,
        board,
        [
          [["solder joint"], 6],
          [["logic"], 4],
        ],
        {},
      ),
    );
    expect(made.indexOf("do:solder joint/new")).toBeLessThan(made.indexOf("do:control/fit assembly"));
    expect(made).toContain("do:control/fit assembly");
  });
});

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

describe("the state of the work", () => {
  const two: HandPart[] = [
    { id: "pump", part: 0.1, access: "back" },
    { id: "belt", part: 0.1, access: "back" },
  ];
  const machine = handMachine(two, { access: [accessGroup("back", 12)], signs: [signRule("hums")] });
  const odds: Odds = [
    [["pump"], 1],
    [["belt"], 1],
  ];
  const tables: Tables = { "told:hums": { outcomes: ["yes", "no"], chance: yes(["pump"]) } };

  test("a step that cannot be taken is not named again", () => {
    expect(ids(plan(machine, two, odds, tables))).toContain("ask:customer");
    const made = plan(machine, two, odds, tables, { state: { cannot: new Set(["ask:hums", "do:pump/new"]) } });
    expect(ids(made)).not.toContain("ask:customer");
    expect(ids(made)).not.toContain("do:pump/new");
    expect(ids(made)).toContain("do:belt/new");
  });

  test("after 45 minutes without an answer the first thing is to stop and talk", () => {
    expect(ids(plan(machine, two, odds, tables, { state: { minutes: 44 } }))[0]).toBe("ask:customer");
    const late = plan(machine, two, odds, tables, { state: { minutes: 46 } });
    expect(late.timeIsUp).toBe(true);
    expect(ids(late).slice(0, 2)).toEqual(["talk", "ask:customer"]);
  });

  test("a repair is read again along the same path before anything else", () => {
    const repair = { event: "e4", remedy: "new", on: "pump", looked: false, path: [] };
    const made = plan(machine, two, odds, tables, { state: { repairs: [repair] } });
    expect(ids(made)[0]).toBe("verify:e4");
    expect(made.mayClose).toBe(false);
  });

  test("what goes beyond the customer's 100 is marked", () => {
    const marked = plan(machine, two, odds, tables, { authority: 100 }).steps.filter((step) => step.overAuthority);
    // 40 call-out, 60 for the part, its work, cover and proof: over; the question: not.
    expect(marked.map((step) => step.id)).toEqual(["do:belt/new", "do:pump/new"]);
  });

  test("on the telephone there are only questions and the way out", () => {
    const made = plan(machine, two, odds, tables, { telephone: true });
    expect(new Set(made.steps.map((step) => step.do))).toEqual(new Set(["ask", "stop"]));
    expect(made.steps[0]?.cautions.map((one) => one.code)).toContain("on-the-phone");
  });

  test("the same case gives the same plan, ties by name, whatever the order of its 2 hypotheses", () => {
    const made = plan(machine, two, odds, {});
    expect(plan(machine, two, odds, {})).toEqual(made);
    expect(ids(plan(machine, two, [...odds].reverse(), {}))).toEqual(ids(made));
    expect(ids(made).slice(0, 2)).toEqual(["do:belt/new", "do:pump/new"]);
  });
});
