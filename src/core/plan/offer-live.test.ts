import { describe, expect, test } from "vitest";
import { isLow, type LowKind } from "../../../test/machines/low-points.ts";
import { meters, openJob, shop } from "../../../test/rows/jobs.ts";
import { layOut } from "./ground.ts";
import { inPlay } from "./in-play.ts";
import { liveOffers } from "./offer-live.ts";
import { sceneOf } from "./scene.ts";

describe("live questions of shipped rows", () => {
  /** Job, its machine, and a reading along a rail that must still be offered. */
  const jobs: readonly (readonly [string, LowKind, string | undefined])[] = [
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
      .flatMap(({ probe }) => (isVolts(probe?.quantity) ? [[probe?.from ?? "", probe?.to ?? ""] as const] : []));
  }

  const isVolts = (quantity: string | undefined): boolean => quantity === "volts" || quantity === "volts dc";

  const mixed = (
    kind: LowKind,
    volts: readonly (readonly [string, string])[],
  ): readonly (readonly [string, string])[] => volts.filter(([from, to]) => isLow(kind, from) !== isLow(kind, to));

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
    // Across two connectors one end is a pole; X4.3 is a phase of one motor and a brush of the other.
    const connectorOf = (id: string): string => id.slice(0, id.indexOf("."));
    const across = volts.filter(([from, to]) => connectorOf(from) !== connectorOf(to));
    expect([...new Set(across.map(([, to]) => to))].sort()).toEqual(["X1.1", "X1.2"]);
  });
});
