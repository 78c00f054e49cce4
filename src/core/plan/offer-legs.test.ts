import { expect, test } from "vitest";
import { shippedMachine } from "../../../test/machines/shipped.ts";
import { meters, openJob, shop } from "../../../test/rows/jobs.ts";
import { railRule } from "../predict/index.ts";
import { drivingStep } from "./driving-step.ts";
import { layOut } from "./ground.ts";
import { inPlay } from "./in-play.ts";
import { legOffers, legPairs } from "./offer-legs.ts";
import { sceneOf } from "./scene.ts";

const machine = shippedMachine("tumble-dryer", { control: "board with two heater poles" });

function legsOf(id: string): readonly string[] {
  const part = machine.parts.find((one) => one.id === id);
  if (part === undefined) throw new Error(`no part ${id}`);
  return legPairs(machine, part).map(([from, to]) => `${from}-${to}`);
}

test("a relay of the board is read over its coil and over its pole, not from one to the other", () => {
  expect([...legsOf("heat-relay-n")].sort()).toEqual(["11-14", "A1-A2"]);
});

test("a supply on the mains is read rail to rail: neither 5 V nor 12 V against the live wire or the neutral", () => {
  expect([...legsOf("supply")].sort()).toEqual(["L-N", "v12-com", "v5-com"]);
});

test("all legs of board relays and supplies can be clipped before power returns", () => {
  const legs = machine.points.filter(({ id }) => /^(heat-relay|heat-relay-n|motor-relay|supply)\./.test(id));
  expect(legs.length).toBeGreaterThanOrEqual(17);
  expect(new Set(legs.map(({ live }) => live))).toEqual(new Set(["clipped"]));
});

test("a board that is dead with mains at its plug: its rails are offered in direct volts, each against its own 0 V", () => {
  const { case: the, belief, work } = openJob("test/rows/t04-board-supply.yaml", { pairsAtMost: 200 });
  const scene = sceneOf(layOut(the, inPlay(the.hypotheses, belief, 80, 0.99), work, shop, 100), work, shop, { meters });
  const rails = railRule(the.candidates.map((candidate) => candidate.machine));
  const direct = legOffers(scene, drivingStep(scene), rails)
    .flatMap(({ questions }) => questions)
    .flatMap(({ probe }) => (probe?.quantity === "volts dc" ? [`${probe.from} ${probe.to}`] : []));
  expect(direct).toEqual(["supply.v12 supply.com", "supply.v5 supply.com"]);
});
