import { describe, expect, it } from "vitest";
import { plainMode, tableForesight } from "../../../test/machines/table-foresight.ts";
import type { Moment } from "../part/index.ts";
import type { SignRule } from "../sheet/index.ts";
import { type Seen, trueAnswers } from "./answers.ts";
import { MeanMoment } from "./mean-moment.ts";
import { meansMode } from "./name.ts";
import type { Observation } from "./observation.ts";
import { saidBy, whichCount } from "./witness.ts";

const odds = { hit: 0.8, falseAlarm: 0.15 };

function sign(rule: SignRule["rule"], answers: readonly string[]): SignRule {
  return { id: "heat", ask: "How warm?", in: "heat", answers, rule, told: odds, heard: odds, seen: odds };
}

/** A moment of which only watts are known. */
function watts(value: number): Moment {
  const nothing = (): number => 0;
  return {
    volts: nothing,
    amps: nothing,
    watts: () => value,
    between: nothing,
    cross: nothing,
    apart: nothing,
    state: nothing,
    variable: nothing,
    parameter: nothing,
    good: () => 2000,
  };
}

function seen(moments: Readonly<Record<string, Moment>>, said: Seen["said"] = []): Seen {
  return { moment: (step, at) => moments[`${step}@${at}`], said };
}

const foresight = tableForesight({ modes: [plainMode(0, "heater"), plainMode(1, "one-shot")] });
const { machine } = foresight;
const below = (share: number) => ({
  at: "minutes" as const,
  when: (m: Moment) => Number(m.watts(0) < share * m.good(0)),
});

describe("the true answer", () => {
  const levels = sign({ kind: "levels", tests: [below(0.08), below(0.65)] }, ["cold", "lukewarm", "hot"]);

  it.each([
    [0, "cold"],
    [1000, "lukewarm"],
    [1900, "hot"],
  ])("of levels at %i W of 2000 W is %s", (power, answer) => {
    const chances = trueAnswers(levels, machine, [], seen({ "heat@minutes": watts(power) }));
    expect(levels.answers[chances.indexOf(1)]).toBe(answer);
  });

  it("of a machine that hunts between 0 W and 2000 W, a quarter of the time on, is that of 500 W", () => {
    const hunt = new MeanMoment([
      { weight: 0.75, solve: () => watts(0) },
      { weight: 0.25, solve: () => watts(2000) },
    ]);
    const chances = trueAnswers(levels, machine, [], seen({ "heat@minutes": hunt }));
    expect(levels.answers[chances.indexOf(1)]).toBe("lukewarm");
  });

  it("of when-first is the first of its steps, and never where there is none", () => {
    const trips = sign({ kind: "when-first", when: (m) => Number(m.watts(0) > 100) }, ["never", "turn", "heat"]);
    const both = seen({ "turn@now": watts(0), "turn@seconds": watts(500), "heat@now": watts(500) });
    expect(trueAnswers(trips, machine, [], both)[1]).toBe(1);
    expect(trueAnswers(trips, machine, [], seen({ "turn@now": watts(0) }))[0]).toBe(1);
  });

  it("of what it says is the last known word", () => {
    const says = sign({ kind: "says" }, ["none", "door", "sensor"]);
    const words = [
      { step: "turn", says: "door" },
      { step: "heat", says: "unheard of" },
    ];
    expect(trueAnswers(says, machine, [], seen({}, words))[1]).toBe(1);
  });

  it("of a table is 0.7 for the named mode, 1 - 0.3 x 0.5 for two named, 0.1 otherwise", () => {
    const table = sign(
      {
        kind: "table",
        chance: new Map([
          ["heater", 0.7],
          ["one-shot/*", 0.5],
        ]),
        otherwise: 0.1,
      },
      ["yes", "no"],
    );
    const [heater, oneShot] = foresight.atoms;
    expect(trueAnswers(table, machine, [heater], seen({}))[0]).toBeCloseTo(0.7, 12);
    expect(trueAnswers(table, machine, [heater, oneShot], seen({}))[0]).toBeCloseTo(0.85, 12);
    expect(trueAnswers(table, machine, [], seen({}))[0]).toBeCloseTo(0.1, 12);
  });
});

describe("a witness", () => {
  it("says yes with 0.15 + 0.65 P: 0.345 at P = 0.3", () => {
    const test = sign({ kind: "test", test: below(1) }, ["yes", "no"]);
    expect(saidBy(test, "told", [0.3, 0.7])[0]).toBeCloseTo(0.345, 12);
  });

  it("puts a missed middle level on both neighbours alike, and always says something", () => {
    const levels = sign({ kind: "levels", tests: [below(0.08), below(0.65)] }, ["cold", "lukewarm", "hot"]);
    expect([...saidBy(levels, "told", [0, 1, 0])]).toEqual([
      expect.closeTo(0.1),
      expect.closeTo(0.8),
      expect.closeTo(0.1),
    ]);
    expect(saidBy(levels, "told", [0.2, 0.3, 0.5]).reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 12);
  });

  it("counts once: seen over heard over told, and of two alike the later", () => {
    const by = (witness: "told" | "heard" | "seen"): Observation => ({
      kind: "sign",
      sign: "heat",
      answer: "cold",
      witness,
    });
    expect(whichCount([by("told"), by("seen"), by("heard")])).toEqual([false, true, false]);
    expect(whichCount([by("told"), by("told")])).toEqual([false, true]);
  });

  it("one run seen leaves a told sometimes standing, and an always told after it does not", () => {
    const by = (witness: "told" | "heard" | "seen", answer: string): Observation => ({
      kind: "sign",
      sign: "heat",
      answer,
      witness,
    });
    expect(whichCount([by("told", "sometimes"), by("seen", "no")])).toEqual([true, true]);
    expect(whichCount([by("told", "sometimes"), by("told", "yes"), by("seen", "no")])).toEqual([false, false, true]);
    expect(whichCount([by("told", "sometimes"), by("seen", "sometimes")])).toEqual([false, true]);
  });
});

describe("a name in a sheet", () => {
  it("means a mode by its part, by part/mode, or with a star; a joint in a group by its own name", () => {
    const [mode] = foresight.modes;
    expect(meansMode("heater", mode, machine)).toBe(true);
    expect(meansMode("heater/open", mode, machine)).toBe(true);
    expect(meansMode("heat*/op*", mode, machine)).toBe(true);
    expect(meansMode("heat", mode, machine)).toBe(false);
    const group = { ...plainMode(0, "heater"), id: "joints heater+one-shot/open", parts: [0, 1] };
    expect(meansMode("one-shot/open", group, machine)).toBe(true);
  });
});
