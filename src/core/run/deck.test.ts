import { expect, test } from "vitest";
import { shippedMachine } from "../../../test/machines/shipped.ts";
import { askDeck } from "../circuit/index.ts";
import { type Effect, modesOf } from "../fault/index.ts";
import { deckOf, openRunner } from "./index.ts";

test("a dryer's deck, read again, gives the same volts over every thirtieth mode, to 1e-9, AC and DC", () => {
  const machine = shippedMachine("tumble-dryer");
  const runner = openRunner(machine);
  const asked = ["X3.1", "X3.3", "X1.1", "plug.N", "X5.1"].flatMap((id) => {
    const point = machine.points.find((candidate) => candidate.id === id);
    return point === undefined ? [] : [point.node];
  });
  const effects: (readonly Effect[])[] = [[], ...modesOf(machine).map((mode) => mode.severities[0].effects)];
  for (let index = 0; index < effects.length; index += 30) {
    const [member] = runner.run(effects[index]).pictures.get("heat@end")?.members ?? [];
    const deck = deckOf(machine, effects[index], member);
    const { live } = runner.restore(effects[index], member);
    const ends = asked.map((node) => deck.nodeNames.get(machine.nodes[node]) ?? "");
    const questions = ends.slice(1).flatMap((to, at) => [
      { id: `ac ${at}`, volts: [ends[0], to] },
      { id: `dc ${at}`, volts: [ends[0], to], dc: true },
    ]);
    const answered = askDeck(deck.text, { hertz: machine.supply.hertz, questions });
    if (!answered.ok) throw new Error(JSON.stringify(answered.issues));
    answered.value.forEach((answer, at) => {
      const to = asked[1 + (at >> 1)];
      const volts = live.between(asked[0], to, at % 2 === 0 ? "~" : "=");
      const value = "value" in answer ? Math.abs(answer.value) : 0;
      expect(Math.abs(value - volts), `${index} ${answer.id}`).toBeLessThanOrEqual(1e-9 * Math.max(value, 1e-3));
    });
  }
});
