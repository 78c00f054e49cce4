import { describe, expect, test } from "vitest";
import { shippedMachine } from "../../../test/machines/shipped.ts";
import { meters, openJob, shop } from "../../../test/rows/jobs.ts";
import type { Machine, Point } from "../sheet/index.ts";
import { layOut } from "./ground.ts";
import { inPlay } from "./in-play.ts";
import { liveOffers } from "./offer-live.ts";
import { railRule } from "./rails.ts";
import { sceneOf } from "./scene.ts";

/** Connector pins that hang on 5 V or 12 V, read off the sheets by eye; all others are mains, or what a module makes. */
const LOW = {
  dryer: /^X(2|6|7|8|9)\./,
  timer: /^$/,
  dishwasher: /^X(2|6|9|10|11|13|14|15|20)\./,
  "dishwasher with module": /^X(2|4|6|9|10|11|13|14|15|20)\./,
  "washing machine, brushes": /^X(6|11|12|14|20)\.|^X5\.[56]/,
  "washing machine, module": /^X(6|11|12|14|20)\.|^X5\.[456]/,
} as const;
/** Legs of parts that hang on 5 V or 12 V; all others are mains. */
const LOW_LEGS =
  /^(supply\.(v5|v12|com)|[a-z-]*relay[a-z0-9-]*\.A[12]|motor\.(v5|hall|com|tacho-.)|module\.(data|com)|link\..*|(ntc|bars|float|level-s[a-z]+|flow-meter|turbidity|panel|start-key|drum-sensor|salt-reed|command-pull)\..*)$/;
/** The door switch of these boards is read at 5 V. */
const DOOR_SWITCH = /^door-switch\./;

type Kind = keyof typeof LOW;

const isLow = (kind: Kind, id: string): boolean =>
  LOW[kind].test(id) || (kind !== "timer" && (LOW_LEGS.test(id) || DOOR_SWITCH.test(id)));

describe("what hangs on a rail", () => {
  const machines: readonly (readonly [Kind, string, Readonly<Record<string, string>>])[] = [
    ["dryer", "tumble-dryer", { control: "board with two heater poles", condensate: "pump to a tank above" }],
    ["dryer", "tumble-dryer", { control: "board with one heater pole", "motor-watch": "drum sensor on the board" }],
    ["timer", "tumble-dryer", { control: "timer" }],
    ["dishwasher", "dishwasher", { "pump-type": "capacitor", level: "flow meter", "heater-poles": "separate relay" }],
    ["dishwasher with module", "dishwasher", { "pump-type": "three-phase with module", turbidity: "with a sensor" }],
    ["washing machine, brushes", "washing-machine", { motor: "brushes and a triac", level: "contact pressure switch" }],
    ["washing machine, module", "washing-machine", { motor: "three phases and a module", level: "sealed sensor" }],
  ];

  test.each(machines)("of a %s (%s, %o) is what a reader of the sheet finds", (kind, sheet, answers) => {
    const machine = shippedMachine(sheet, answers);
    const rule = railRule([machine]);
    const pins = machine.points.filter(({ plug }) => plug !== undefined);
    expect(pins.length).toBeGreaterThan(10);
    expect(pins.filter((point) => rule.isOnRail(point)).map(({ id }) => id)).toEqual(
      pins.filter(({ id }) => isLow(kind, id)).map(({ id }) => id),
    );
  });

  test("is the same whether the sheet says that the rail is isolated or on the mains", () => {
    const machine = shippedMachine("tumble-dryer", { control: "board with two heater poles" });
    const isolated = { ...machine, elements: machine.elements.filter(({ id }) => id !== "supply.tie") };
    expect(isolated.elements.length).toBe(machine.elements.length - 1);
    const onRail = (one: Machine): string[] => one.points.filter(railRule([one]).isOnRail).map(({ id }) => id);
    expect(onRail(isolated)).toEqual(onRail(machine));
    expect(onRail(machine)).toContain("X6.1");
  });

  test("is read against its own 0 V; not against another wire of the rail, a pole or earth", () => {
    const machine = shippedMachine("washing-machine", { motor: "three phases and a module" });
    const { isToOwnZero } = railRule([machine]);
    const at = (id: string): Point => {
      const point = machine.points.find((one) => one.id === id);
      if (point === undefined) throw new Error(`no point ${id}`);
      return point;
    };
    const may = (from: string, to: string): boolean => isToOwnZero(at(from), at(to)) && isToOwnZero(at(to), at(from));
    expect(may("X6.1", "X6.2")).toBe(true);
    expect(may("X5.4", "X5.6")).toBe(true);
    expect(may("X5.4", "X5.5")).toBe(false);
    expect(may("X6.1", "X1.1")).toBe(false);
    expect(may("X6.2", "X1.2")).toBe(false);
    expect(may("X6.1", "plug.N")).toBe(false);
    expect(may("X6.1", "plug.PE")).toBe(false);
    expect(may("X5.1", "X5.6")).toBe(false);
    // mains to mains, and the wire that a board senses through megohms: a mains wire all the same
    expect(may("X8.1", "X1.2")).toBe(true);
    expect(may("X2.3", "X1.2")).toBe(true);
  });

  test("while a slot is open, a pin that may be a sensor's is not read against mains", () => {
    const machines = ["capacitor", "three-phase with module"].map((type) =>
      shippedMachine("dishwasher", { "pump-type": type }),
    );
    const [plain] = machines;
    const at = (id: string): Point => plain?.points.find((one) => one.id === id) as Point;
    expect(railRule(machines.slice(0, 1)).isToOwnZero(at("X4.1"), at("X1.2"))).toBe(true);
    expect(railRule(machines).isToOwnZero(at("X4.1"), at("X1.2"))).toBe(false);
  });
});

describe("live questions of shipped rows", () => {
  /** Job, its machine, and a reading along a rail that must still be offered. */
  const jobs: readonly (readonly [string, Kind, string | undefined])[] = [
    ["examples/board-accused", "dryer", "X6.1 X6.2"],
    ["test/rows/t05-relay-pole", "dryer", undefined],
    ["test/rows/t05-timer", "timer", undefined],
    ["test/rows/t09-ntc-open", "dryer", "X6.1 X6.2"],
    ["test/rows/t10-moisture-film", "dryer", "X7.1 X7.2"],
    ["test/rows/d07-triac-dead", "dishwasher", undefined],
    ["test/rows/d13-ntc-open", "dishwasher", "X6.1 X6.2"],
    ["test/rows/w07-link", "washing machine, module", "X14.1 X14.2"],
    ["test/rows/w09-ntc", "washing machine, module", "X6.1 X6.2"],
    ["test/rows/w16-tacho", "washing machine, brushes", "X5.5 X5.6"],
  ];

  /** Pairs of points between which volts are offered to be read, live. */
  function liveVolts(file: string, candidatesAtMost: number): readonly (readonly [string, string])[] {
    const { case: the, belief, work } = openJob(`${file}.yaml`, { pairsAtMost: 200, candidatesAtMost });
    const board = layOut(the, inPlay(the.hypotheses, belief, 80, 0.99), work, shop, 100);
    return liveOffers(sceneOf(board, work, shop, { meters }))
      .flatMap(({ questions }) => questions)
      .flatMap(({ probe }) => (probe?.quantity === "volts" ? [[probe.from ?? "", probe.to ?? ""] as const] : []));
  }

  const mixed = (kind: Kind, volts: readonly (readonly [string, string])[]): readonly (readonly [string, string])[] =>
    volts.filter(([from, to]) => isLow(kind, from) !== isLow(kind, to));

  test.each(jobs)("%s: none pairs a rail with mains or earth", (file, kind, kept) => {
    const volts = liveVolts(file, 3);
    expect(volts.length).toBeGreaterThan(0);
    expect(mixed(kind, volts)).toEqual([]);
    if (kept !== undefined) expect(volts.map(([from, to]) => `${from} ${to}`)).toContain(kept);
  });

  test("w02-panel, any washing machine: none pairs a rail with mains whichever motor it turns out to have", () => {
    const volts = liveVolts("test/rows/w02-panel", 12);
    expect(volts.length).toBeGreaterThan(0);
    expect(mixed("washing machine, brushes", volts)).toEqual([]);
    expect(mixed("washing machine, module", volts)).toEqual([]);
  });
});
