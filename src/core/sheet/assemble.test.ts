import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { shippedLibrary } from "../../../test/machines/shipped.ts";
import { lampSheet, machineOf, nodeOf, sheetOf, smallDryerText } from "../../../test/sheets/read.ts";
import { assemble } from "./assemble.ts";
import { combinations } from "./combine.ts";
import type { Machine, Part } from "./machine.ts";

const library = shippedLibrary();
const sheet = sheetOf(smallDryerText, library);
const board = machineOf(sheet, library, {
  control: "board, one heater pole",
  "motor-watch": "running contact in the heater wire",
});
const onePole = board;
const twoPoles = machineOf(sheet, library, { control: "board, two heater poles" });
const magnet = machineOf(sheet, library, {
  control: "board, two heater poles",
  "motor-watch": "drum magnet seen by the board",
});

function part(machine: Machine, id: string): Part {
  const found = machine.parts.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no part ${id}`);
  return found;
}

describe("wires, plugs and joints", () => {
  test("a plug cuts its wire: X3.1 on the wire side is another node than inside, with a joint between them", () => {
    expect(nodeOf(board, "X3.1")).not.toBe(nodeOf(board, "X3.1 inside"));
    const joint = board.elements[part(board, "joint X3.1").elements[0] ?? -1];
    expect([joint?.a, joint?.b]).toEqual([nodeOf(board, "X3.1"), nodeOf(board, "X3.1 inside")]);
  });

  test("parts of the control sit inside its plug, the heater outside", () => {
    const inside = board.elements[part(board, "joint heat-relay-1.14").elements[0] ?? -1];
    expect(inside?.a).toBe(nodeOf(board, "X3.1 inside"));
    const outside = board.elements[part(board, "joint heater.s1").elements[0] ?? -1];
    expect(outside?.a).toBe(nodeOf(board, "X3.1"));
  });

  test("with one heater pole X3.3 inside is the neutral of X1.2 inside; with two poles a relay sits between", () => {
    expect(nodeOf(onePole, "X3.3 inside")).toBe(nodeOf(onePole, "X1.2 inside"));
    expect(nodeOf(twoPoles, "X3.3 inside")).not.toBe(nodeOf(twoPoles, "X1.2 inside"));
  });

  test("slots in series meet at their edges: with the magnet heat-r and heat-n are one wire, else the contact sits between", () => {
    const fuseSide = (machine: Machine) => machine.elements[part(machine, "joint one-shot.b").elements[0] ?? -1]?.a;
    expect(fuseSide(magnet)).toBe(nodeOf(magnet, "X3.3"));
    expect(fuseSide(onePole)).not.toBe(nodeOf(onePole, "X3.3"));
  });

  test("every pin is reached through a joint of its class; a pin of class none sits on the wire", () => {
    expect(part(board, "joint heater.s1").joint).toEqual({ part: "heater", pin: "s1", class: "hot-tab" });
    expect(board.parts.some(({ id }) => id === "joint heater.case")).toBe(false);
    expect(nodeOf(board, "heater.case")).toBe(nodeOf(board, "motor.case"));
  });

  test("pulling X3 opens all its joints: 3 with two stages", () => {
    const plug = machineOf(sheet, library, { stages: "two", control: "board, one heater pole" }).plugs.find(
      ({ id }) => id === "X3",
    );
    expect(plug?.pins.map(({ pin }) => pin)).toEqual(["1", "3", "2"]);
    expect(plug?.elements).toHaveLength(3);
  });

  test("a row of the trade gives its 4 shares to the joints of the heater branch, instead of their own", () => {
    const branch = board.parts.filter(({ joint }) =>
      ["heater", "cut-out", "one-shot", "X3"].includes(joint?.part ?? joint?.plug ?? ""),
    );
    expect(branch.length).toBeGreaterThan(7);
    expect(branch.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(4, 12);
  });
});

describe("words for a technician", () => {
  test("points say connector, pin and colour, or part and terminal; never an inner wire name", () => {
    const says = (id: string) => board.points.find((point) => point.id === id)?.says;
    expect(says("X3.1")).toBe("connector X3, pin 1 (red)");
    expect(says("plug.L")).toBe("mains plug, live pin (brown)");
    expect(says("heater.s1")).toMatch(/^heater, .*\(red wire\)$/);
    expect(says("heater.common")).toMatch(/\(white sleeve\)$/);
    const inner = ["v12", "com", "k1", "k2", "heat-1", "heat-m", "motor-aux", "Lf", "door-w"];
    const words = [...board.points, ...board.parts].flatMap((one) => one.says.split(/[ ,()]+/));
    expect(words.filter((word) => inner.includes(word))).toEqual([]);
  });

  test("a joint says where it sits", () => {
    expect(part(board, "joint X3.1").says).toBe("bad connection in connector X3, pin 1 (red)");
    expect(part(board, "joint heater.s1").says).toMatch(/^bad connection at the heater, /);
  });

  test("how a point may be probed live follows from its plug: X1 is clipped, X4 held by hand", () => {
    const live = (id: string) => board.points.find((point) => point.id === id)?.live;
    expect([live("X1.1"), live("X4.1")]).toEqual(["clipped", "handheld"]);
  });

  test("parts on the board that nobody probes are no points; those with a joint and an access are", () => {
    const ids = board.points.map(({ id }) => id);
    expect(ids).toContain("heat-relay-1.14");
    expect(ids).not.toContain("heat-out-1.out");
    expect(ids).not.toContain("socket.L");
  });
});

describe("programme and signs", () => {
  const moment = {
    volts: () => 0,
    amps: () => 0,
    watts: () => 0,
    between: () => 0,
    cross: () => 0,
    apart: () => 0,
    state: () => 0,
    parameter: () => 0,
    good: () => 0,
  };

  test("guards of one name add up: heat needs the NTC and, with the magnet, the drum seen", () => {
    const heat = magnet.steps.find(({ id }) => id === "heat");
    const guards = heat?.drives.filter(({ guardSays }) => guardSays === "heat");
    expect(guards?.length).toBe(magnet.choice.get("stages") === "two" ? 3 : 2);
    const drives = heat?.drives.map(({ output }) => magnet.variables[output]?.id);
    expect(drives).toContain("heat-out-n");
    expect(guards?.[0]?.guard?.({ ...moment, variable: () => 0 })).toBe(0);
  });

  test("enters-if is asked once, needs throughout, guards hold one output: three lists of one step", () => {
    const turn = board.steps.find(({ id }) => id === "turn");
    expect(turn?.entersIf.map(({ says }) => says)).toEqual(["no answer"]);
    expect(turn?.needs.map(({ says }) => says)).toEqual(["door"]);
    expect(turn?.drives.map(({ guardSays }) => guardSays)).toEqual([""].map(() => undefined));
  });

  test("time-outs come in order of their seconds: 10 s, then 600 s", () => {
    const heat = board.steps.find(({ id }) => id === "heat");
    expect(heat?.timeOuts.map(({ id, afterSeconds }) => [id, afterSeconds])).toEqual([
      ["ntc", 10],
      ["cold", 600],
    ]);
    expect(heat?.timeOuts[0]?.then).toEqual([{ do: "stop" }, { do: "say", says: "sensor" }, { do: "lock out" }]);
  });

  test("steps keep the order of the family, whatever piece fills them", () => {
    expect(board.steps.map(({ id }) => id)).toEqual(["plugged-in", "turn", "heat", "cool"]);
  });

  test("an output is a variable by its part's name, at rest 0", () => {
    expect(board.variables.find(({ id }) => id === "motor-out")).toEqual({
      id: "motor-out",
      role: "output",
      initial: 0,
    });
  });

  test("a world value starts where its sheet says: the exhaust at the room's 20 degrees", () => {
    expect(board.variables.find(({ id }) => id === "exhaust")?.initial).toBe(20);
  });

  test("the house brings its own conditions: plug out and kettle beside the sheet's", () => {
    expect(board.conditions.map(({ id }) => id).sort()).toEqual(["kettle", "open-door", "plug out"]);
  });

  test("cuts out looks at two moments; levels at minutes, the last without a test; of good is kept once", () => {
    const rule = (id: string) => board.signs.find((sign) => sign.id === id)?.rule;
    expect(rule("cuts out")).toMatchObject({ kind: "test", test: { all: [{ at: "seconds" }, { at: "minutes" }] } });
    expect(rule("heat")).toMatchObject({ kind: "levels", tests: [{ at: "minutes" }, { at: "minutes" }] });
    expect(board.goods).toHaveLength(1);
  });

  test("links name faults in full: one row for each joint of the heater", () => {
    const joints = board.links.filter(({ cause }) => cause.startsWith("joint heater."));
    expect(joints.length).toBeGreaterThanOrEqual(4);
    expect(joints.every(({ victim, p }) => victim === "heat-relay-1/contact1 burnt" && p === 0.3)).toBe(true);
  });

  test("reasons for an open protector sum to 1", () => {
    const reasons = [...(board.whyOpen.get("one-shot")?.values() ?? [])];
    expect(reasons.reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 12);
  });
});

describe("values", () => {
  test("a heater stage of 1200 W at 230 V is two halves of 22.04 ohms", () => {
    const machine = machineOf(sheet, library, { stages: "two" });
    const halves = machine.elements.filter(({ id }) => id === "heater.first1" || id === "heater.second1");
    expect(halves).toHaveLength(2);
    for (const half of halves) expect(half.values[0]?.nominal).toBeCloseTo((230 * 230) / 1200 / 2, 6);
  });

  test("slopes agree with finite differences of the value at other ratings", () => {
    const parameters = Float64Array.from(board.parameters, ({ rated }) => rated.nominal);
    for (const element of board.elements) {
      for (const { nominal, of, slopes } of element.values) {
        expect(of(parameters)).toBe(nominal);
        for (const { parameter, slope } of slopes) {
          const moved = Float64Array.from(parameters);
          const step = 1e-4 * Math.abs(parameters[parameter] ?? 1);
          moved[parameter] = (parameters[parameter] ?? 0) + step;
          const above = of(moved);
          moved[parameter] = (parameters[parameter] ?? 0) - step;
          expect((above - of(moved)) / (2 * step)).toBeCloseTo(slope, 6 - Math.ceil(Math.log10(1 + Math.abs(slope))));
        }
      }
    }
  });

  test("a place where a leak may sit is an element that is open in a good machine", () => {
    const leaks = board.elements.filter(({ what }) => what === "leak");
    expect(leaks.some(({ id }) => id.startsWith("heater.leak "))).toBe(true);
    expect(leaks.every(({ values }) => values.length === 1 && values[0]?.nominal === Number.POSITIVE_INFINITY)).toBe(
      true,
    );
  });
});

describe("supply", () => {
  test("the cord carries the whole current: line, neutral and earth core", () => {
    const [cores] = board.plugElements;
    const ids = [cores?.line, cores?.neutral, cores?.earth].map((index) => board.elements[index ?? -1]?.id);
    expect(ids).toEqual(["cord.line1", "cord.neutral", "cord.earth"]);
  });

  test.each([
    ["single 230", "L", 1, 230, 50],
    ["single 230 with plug fuse", "L", 1, 230, 50],
    ["split 120/240", "L1", 2, 240, 60],
    ["two lines 400/230", "L1", 2, 400, 50],
    ["three lines 400/230", "L1", 3, 400, 50],
  ])("%s: line %s, %i lines, %i V, %i Hz, with and without earth", (house, line, lines, volts, hertz) => {
    const text = lampSheet().replace("single 230", house).replace("a: L,", `a: ${line},`);
    const earthed = machineOf(sheetOf(text, library), library);
    expect(earthed.supply).toEqual({ house, class: "I", hertz, volts });
    expect(earthed.plugElements).toHaveLength(lines);
    expect(earthed.plugElements.every(({ line, neutral, earth }) => line >= 0 && neutral >= 0 && earth >= 0)).toBe(
      true,
    );
    const classTwo = machineOf(sheetOf(text.replace("class: I", "class: II"), library), library);
    expect(classTwo.plugElements.every(({ line, earth }) => line >= 0 && earth === -1)).toBe(true);
    expect(classTwo.points.some(({ id }) => id === "plug.PE")).toBe(false);
  });

  test("three lines stand a third of a turn apart, split phase half a turn", () => {
    const phases = (house: string, line: string) => {
      const machine = machineOf(
        sheetOf(lampSheet().replace("single 230", house).replace("a: L,", `a: ${line},`), library),
        library,
      );
      return machine.mains.map((index) => machine.elements[index]?.degrees ?? 0);
    };
    expect(phases("three lines 400/230", "L1")).toEqual([0, 120, 240]);
    expect(phases("split 120/240", "L1")).toEqual([0, 180]);
  });
});

describe("laws", () => {
  test("no allowed combination leaves a node with fewer than two elements (seed 7)", () => {
    const all = combinations(sheet);
    fc.assert(
      fc.property(fc.constantFrom(...all), ({ choice }) => {
        const assembled = assemble(sheet, library, choice);
        if (!assembled.ok) throw new Error(assembled.issues[0]?.found);
        const machine = assembled.value;
        const ends = machine.nodes.map(() => 0);
        for (const { a, b } of machine.elements) for (const node of [a, b]) ends[node] = (ends[node] ?? 0) + 1;
        const loose = machine.nodes.filter((_, node) => (ends[node] ?? 0) < 2);
        expect(loose).toEqual([]);
      }),
      { seed: 7, numRuns: 28 },
    );
  });

  test("the order in which a sheet names its parts, plugs and wires does not matter (seed 11)", () => {
    const shape = (machine: Machine): string[] => {
      const name = (node: number): string =>
        machine.points
          .filter((point) => point.node === node)
          .map(({ id }) => id)
          .sort()
          .join("=");
      return machine.elements
        .map(({ id, a, b, values }) => `${id} ${name(a)} ${name(b)} ${values.map(({ nominal }) => nominal).join(" ")}`)
        .sort();
    };
    const lines = smallDryerText.split("\n");
    const start = lines.indexOf("parts:") + 1;
    const end = lines.indexOf("joint-rows:");
    const expected = shape(board);
    // One part a member, whatever number of lines it takes.
    const order = lines
      .slice(start, end)
      .join("\n")
      .split(/\n(?= {2}\S)/);
    fc.assert(
      fc.property(fc.shuffledSubarray(order, { minLength: order.length }), (shuffled) => {
        const text = [...lines.slice(0, start), ...shuffled, ...lines.slice(end)].join("\n");
        const machine = machineOf(sheetOf(text, library), library, Object.fromEntries(board.choice));
        expect(shape(machine)).toEqual(expected);
      }),
      { seed: 11, numRuns: 20 },
    );
  });
});
