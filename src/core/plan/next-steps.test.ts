import { describe, expect, test } from "vitest";
import {
  accessGroup,
  HAND_SHOP,
  type HandPart,
  handCase,
  handMachine,
  handPlug,
  handPoint,
} from "../../../test/machines/hand-case.ts";
import { ids, METERS, type Odds, plan, signRule, type Tables, yes } from "../../../test/machines/hand-plan.ts";
import { probeOf } from "../predict/index.ts";
import { nextSteps } from "./next-steps.ts";
import { ARRIVAL } from "./work-state.ts";

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
    expect(made.steps[0]?.settles).toBe("tells pump from belt");
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

describe("what is offered", () => {
  const two: HandPart[] = [
    { id: "pump", part: 0.1, access: "back" },
    { id: "belt", part: 0.1, access: "side" },
  ];
  const covers = { access: [accessGroup("back", 12), accessGroup("side", 12)] };

  test("never hangs on the unknown: a question that parts only it from 2 known suspects is not asked", () => {
    const machine = handMachine(two, { ...covers, signs: [signRule("odd")] });
    const odds: Odds = [
      [["pump"], 3],
      [["belt"], 3],
      [[], 4],
    ];
    const made = plan(machine, two, odds, {
      "told:odd": { outcomes: ["yes", "no"], chance: (faulty) => (faulty.length === 0 ? [0.9, 0.1] : [0.05, 0.95]) },
    });
    expect(ids(made)).not.toContain("ask:customer");
  });

  test("begins with a look of 1 minute when it nearly decides, before a cover of 30 behind which the rest is", () => {
    const three: HandPart[] = [
      { id: "roller", part: 0.1, looks: "flat" },
      { id: "motor", part: 0.1, access: "back", looks: "brown" },
      { id: "fan", part: 0.1, access: "back", looks: "loose" },
    ];
    const look = (id: string) => ({
      outcomes: ["bad", "good"],
      chance: (faulty: readonly string[]) => (faulty.includes(id) ? [0.95, 0.05] : [0.02, 0.98]),
    });
    const made = plan(
      handMachine(three, { access: [accessGroup("back", 30)] }),
      three,
      [
        [["roller"], 3],
        [["motor"], 4],
        [["fan"], 3],
      ],
      {
        "look:roller": look("roller"),
        "look:motor": look("motor"),
        "look:fan": look("fan"),
      },
    );
    expect(ids(made)[0]).toBe("look:outside");
  });

  test("asks which variant it is where the variants differ: behind the back cover, after plug out and proof", () => {
    const parts: HandPart[] = [
      { id: "pump", part: 0.1, access: "back" },
      { id: "disc", part: 0.5, access: "back" },
    ];
    const one = handMachine(parts, { ...covers, choice: new Map([["protectors", "disc"]]) });
    const other = { ...handMachine([two[0] as HandPart], { ...covers }), choice: new Map([["protectors", "none"]]) };
    const { case: the, belief } = handCase(
      one,
      parts,
      [
        [["pump"], 1],
        [["disc"], 1],
      ],
      {
        "slot:protectors": { outcomes: ["disc", "none"], chance: yes(["disc"]) },
      },
    );
    const hypotheses = the.hypotheses.map((hypothesis, h) => (h === 0 ? { ...hypothesis, candidate: 1 } : hypothesis));
    const both = { ...the, hypotheses, candidates: [...the.candidates, { machine: other, weight: 1, modes: [] }] };
    const made = nextSteps(both, belief, ARRIVAL, HAND_SHOP, { meters: METERS });
    const step = made.steps.find((one) => one.id === "slot:protectors");
    expect(step?.setUp.map((act) => act.do)).toEqual(["plug out", "open", "prove dead"]);
  });

  test("counts a part fitted new as mending the joint at its own pin: 9 of 10 for relay and joint together", () => {
    const parts: HandPart[] = [
      { id: "relay", part: 0.02, access: "back", cured: 0.9 },
      { id: "joint relay.1", access: "back", minutes: 20, cured: 0.9 },
    ];
    const bare = handMachine(parts, covers);
    const machine = {
      ...bare,
      parts: bare.parts.map((part) =>
        part.id === "relay" ? part : { ...part, joint: { part: "relay", pin: "1", class: "solder" } },
      ),
    };
    const made = plan(
      machine,
      parts,
      [
        [["relay"], 1],
        [["joint relay.1"], 1],
      ],
      {},
    );
    expect(made.steps.find((step) => step.id === "do:relay/new")?.course?.mends).toBeCloseTo(0.9, 9);
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
    const talked = plan(machine, two, odds, tables, { state: { minutes: 46, cannot: new Set(["talk"]) } });
    expect(ids(talked)[0]).toBe("ask:customer");
    expect(talked.timeIsUp).toBe(false);
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
