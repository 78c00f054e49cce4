import { expect, test } from "vitest";
import { MachineBuilder } from "../../../test/machines/build.ts";
import type { DoesRule, ModeRule } from "../part/index.ts";
import { modesOf } from "./index.ts";

function mode(name: string, share: number, ...does: DoesRule[]): ModeRule {
  return { name, share, does, nowAndThen: 0, victim: false };
}

const jointModes = [
  mode("burnt", 75, { does: "series", targets: ["contact"], ohms: [0.3, 5, 50] }),
  mode("open", 25, { does: "open", targets: ["contact"] }),
];

test("a part's modes share its 6 failures by their per cents, places times ohms as equal alternatives", () => {
  const b = new MachineBuilder();
  const leak: DoesRule = { does: "leak-between", from: ["s1", "mid"], to: "case", ohms: [1, 1000] };
  b.part("heater", {
    share: 6,
    modes: [mode("open", 60, { does: "open", targets: ["coil"] }), mode("leak", 40, leak)],
  });
  const coil = b.element("heater.coil", "R", "a", "b", 22);
  const first = b.element("heater.leak s1-case", "leak", "a", "case", Number.POSITIVE_INFINITY);
  b.element("heater.leak mid-case", "leak", "b", "case", Number.POSITIVE_INFINITY);
  const [open, leaks] = modesOf(b.build());
  expect(open.id).toBe("heater/open");
  expect(open.share).toBeCloseTo(3.6, 12);
  expect(open.severities).toEqual([{ weight: 1, effects: [{ does: "open", element: coil }] }]);
  expect(leaks.severities).toHaveLength(4);
  expect(leaks.severities[1]).toEqual({ weight: 0.25, effects: [{ does: "leak", element: first, ohms: 1000 }] });
});

test("doings with lists of equal length go hand in hand; of different length every pairing is an alternative", () => {
  const b = new MachineBuilder();
  const factor = (target: string, ...by: number[]): DoesRule => ({ does: "factor", targets: [target], by });
  const modes = [
    mode("together", 50, factor("v12", 0.5, 0.7), factor("v5", 0.6, 0.8)),
    mode("apart", 50, factor("v12", 0.5, 0.7), factor("v5", 0.6, 0.8, 0.9)),
  ];
  b.part("supply", { modes });
  b.element("supply.v12", "V=", "a", "c", 12);
  b.element("supply.v5", "V=", "b", "c", 5);
  const [together, apart] = modesOf(b.build());
  expect(together.severities.map(({ effects }) => effects.map((e) => ("by" in e ? e.by : 0)))).toEqual([
    [0.5, 0.6],
    [0.7, 0.8],
  ]);
  expect(apart.severities).toHaveLength(6);
});

test("two joints of 0.5 that nothing reachable parts are one suspect of 1.0; a third behind a probe point is another", () => {
  const b = new MachineBuilder();
  for (const id of ["joint X3.1", "joint heater.s1", "joint heater.s2"]) {
    b.part(id, { share: 0.5, modes: jointModes, says: `bad connection at ${id.slice(6)}`, joint: { class: "tab" } });
  }
  b.element("board.out", "R", "n", "x3", 1);
  const first = b.element("joint X3.1.contact", "R", "x3", "wire", 0.005);
  b.element("joint heater.s1.contact", "R", "wire", "s1", 0.005);
  b.element("heater.coil", "R", "s1", "s2", 22);
  b.element("joint heater.s2.contact", "R", "s2", "n", 0.005);
  b.point("connector X3, pin 1", "x3");
  b.point("heater, tab 1", "s1");
  const modes = modesOf(b.build());
  expect(modes.filter(({ id }) => !id.startsWith("heater") && !id.startsWith("board")).map(({ id }) => id)).toEqual([
    "joints X3.1+heater.s1/burnt",
    "joints X3.1+heater.s1/open",
    "joint heater.s2/burnt",
    "joint heater.s2/open",
  ]);
  const [burnt] = modes;
  expect(burnt.share).toBeCloseTo(0.75, 12);
  expect(burnt.parts).toHaveLength(2);
  expect(burnt.says).toBe("bad connection between connector X3, pin 1 and heater, tab 1: burnt");
  expect(burnt.severities[0].effects).toEqual([{ does: "series", element: first, ohms: 0.3 }]);
  expect(burnt.severities.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12);

  b.point("splice", "wire");
  expect(modesOf(b.build()).map(({ id }) => id)).toContain("joint heater.s1/burnt");
});

test("a cause is a mode with one severity for each value it may set, and a share of nothing is left out", () => {
  const b = new MachineBuilder();
  const airway = b.variable("airway", "input", 1);
  b.cause("lint", airway, [0.15, 0.3, 0.6], 15);
  b.part("kettle", { share: 0, modes: [mode("open", 100, { does: "open", targets: ["coil"] })] });
  b.element("kettle.coil", "R", "a", "b", 26);
  const modes = modesOf(b.build());
  expect(modes.map(({ id, cause, part, share }) => ({ id, cause, part, share }))).toEqual([
    { id: "lint", cause: 0, part: -1, share: 15 },
  ]);
  expect(modes[0].severities.map(({ effects }) => effects)).toEqual(
    [0.15, 0.3, 0.6].map((to) => [{ does: "set", variable: airway, to }]),
  );
});

test("a fault is said as a technician says it: no lone numbers, no mark of a victim, nothing twice", () => {
  const says = (part: string, ...names: string[]) => {
    const b = new MachineBuilder();
    b.part(part, { modes: names.map((name) => mode(name, 10, { does: "open", targets: ["x"] })) });
    b.element(`${part}.x`, "R", "a", "b", 1);
    return modesOf(b.build()).map((found) => found.says);
  };
  expect(says("motor relay", "contact1 burnt", "coil open")).toEqual([
    "motor relay: contact burnt",
    "motor relay: coil open",
  ]);
  expect(says("relay", "contact1 burnt", "contact2 burnt")).toEqual([
    "relay: contact 1 burnt",
    "relay: contact 2 burnt",
  ]);
  expect(says("heater", "stage 1 open", "stage 2 open", "tab 1 burnt")).toEqual([
    "heater: stage 1 open",
    "heater: stage 2 open",
    "heater: tab burnt",
  ]);
  expect(says("one-shot fuse", "blown (victim)")).toEqual(["one-shot fuse: blown"]);
  expect(says("mains supply", "supply off or fuse blown")).toEqual(["mains supply: off or fuse blown"]);
});
