import { describe, expect, test } from "vitest";
import { openPractice } from "../../src/shell/cli/commands/practise.ts";
import { PracticeTalk } from "../../src/shell/cli/practice-talk.ts";
import { faultwrightTyped } from "./run-command.ts";

/** A sheet on which everything is quick. */
const smallDryer = "test/sheets/small-dryer.yaml";
/** A whole session ends with the plan's own job, some ten times as much work as the learner's. */
const SESSION_MILLISECONDS = 240_000;

/** A whole talk as it would stand on a terminal: what was typed after its prompt, what was answered under it. */
function session(
  sheet: string,
  seed: string,
  fault: string,
  answer: readonly string[],
  typed: readonly string[],
): string {
  const talk = new PracticeTalk(openPractice(sheet, seed, { fault, answer }).practice);
  const lines = [...talk.greeting()];
  for (const line of typed) {
    if (talk.over) break;
    lines.push(talk.prompt() + line, ...talk.hear(line));
  }
  return [...lines, ...talk.ending(!talk.over)].join("\n");
}

/** Every piece is said, one after the other, in this order. */
function expectSaid(talk: string, pieces: readonly (string | RegExp)[]): void {
  let rest = talk;
  for (const piece of pieces) {
    const found = typeof piece === "string" ? rest.indexOf(piece) : rest.search(piece);
    expect(found, `not said, or not here: ${piece}\n\n${talk}`).toBeGreaterThanOrEqual(0);
    rest = rest.slice(found + 1);
  }
}

// Figures of the sheets are not held here: what is held is the talk, the state that always shows, and what is refused.
describe("a whole job, typed", () => {
  test(
    "tumble dryer, a heater: found by its connector, fitted, proved, closed",
    () => {
      const said = session(
        "tumble-dryer",
        "3",
        "heater/*open",
        ["stages=one", "control=board with two heater poles"],
        [
          "ask heat",
          "open lid",
          "unplug",
          "open lid",
          "m X3 1-3",
          "prove dead",
          "where X3",
          "m X3 1-3",
          "m X3.1 earth",
          "count X3.1 X3.3 5",
          "mend heater",
          "1",
          "open back; mend heater new",
          "finish",
          "close back; close lid; finish",
          "plug in; verify; finish",
        ],
      );
      expectSaid(said, [
        "The customer rings and says:",
        /LIVE · shut · \d+ min > ask heat/,
        "told: How warm is the laundry",
        "! Not done. (lid)",
        "In life: The plug is in",
        /LIVE · shut · \d+ min > unplug/,
        /PLUG OUT, not proved dead · shut · \d+ min > open lid/,
        "off: lid",
        /PLUG OUT, not proved dead · open: board · \d+ min > m X3 1-3/,
        "! Rule: `prove dead`",
        /PLUG OUT, proved dead · open: board · \d+ min > where X3/,
        "behind the lid (board)",
        "X3.1 to X3.3 ",
        "X3.1 to plug.PE ",
        " good of 5",
        "heater: fit a new heater",
        "It is behind the back panel, which is shut: `open back`",
        "off: back panel",
        "done: heater: fit a new heater",
        "! Not done. (lid)",
        "open machine behind",
        "It was not seen to work since",
        "seen: How warm is the laundry",
        "What was complained of is gone",
        "Closed as mended.",
        "What was wrong: heater",
        "Two job histories of this machine",
        "Yours",
        "The plan's",
        "heater: fit a new heater",
        "closed as mended",
        "money in all",
      ]);
    },
    SESSION_MILLISECONDS,
  );

  test(
    "dishwasher, a drain pump: hints on request, a slip taken back, stopped with a word to the customer",
    () => {
      const said = session(
        "dishwasher",
        "5",
        "drain-pump",
        [],
        [
          "ask drains",
          "look filters",
          "undo",
          "next",
          "faults",
          "bypass the door switch",
          "watts drain",
          "plug out; watts drain",
          "history",
          "stop the drain pump is gone, not worth it",
        ],
      );
      expectSaid(said, [
        "told: What is heard when it should drain",
        "It is behind the ",
        /Taken back: ask|Taken back: look/,
        "To do it, once you are ready",
        / in 10|almost certainly|about even/,
        "! Not done.",
        "No protector and no door switch is ever bridged",
        "at the plug ",
        "Nothing is proved by that.",
        "The plug is out, so nothing runs",
        /PLUG OUT, not proved dead · shut · \d+ min > history/,
        "at the plug ",
        "Stopped: said what was found, left safe.",
        "You said: the drain pump is gone, not worth it",
        "What was wrong: drain pump",
        "stopped, not mended",
      ]);
    },
    SESSION_MILLISECONDS,
  );

  test(
    "washing machine, a door lock: clipped volts, the lock operated again and again, lines that end before the job",
    () => {
      const said = session(
        "washing-machine",
        "2",
        "lock",
        ["lock=bimetal"],
        [
          "volts X2 1-3 in lock",
          "plug out; open board; prove",
          "volts X2 1-3 in lock",
          "m X2 1-3",
          "prove; pull X2; m X2 1-3; plug in",
          "push X2",
          "insulation plug L N",
          "insulation L+N earth",
          "frobnicate",
        ],
      );
      expectSaid(said, [
        "you would hold two tips on live parts",
        "proved dead · open: board",
        /X2\.1 to X2\.3 .*\(in lock\)/,
        "Prove dead before anything is touched",
        "! Rule: `prove dead`",
        "X2 off)",
        "With that cover off, what turns and what is live",
        "open: board · off: X2 ·",
        "500 V between the poles",
        "plug.L + plug.N to plug.PE",
        '"frobnicate" is not understood.',
        "The lines ended here",
        "What was wrong: ",
        "stopped, not mended",
      ]);
    },
    SESSION_MILLISECONDS,
  );
});

describe("the hidden machine is honest", () => {
  const answer = ["stages=one"];
  const open = () => openPractice("tumble-dryer", "11", { fault: "heater", answer }).practice;
  const inside = [{ do: "plug out" }, { do: "open", access: "board" }, { do: "prove dead" }] as const;
  const ohms = { do: "measure", quantity: "ohms", pairs: [{ from: "X3.1", to: "X3.3", joinedWith: [] }] } as const;

  test("the same act gives the same answer, whoever asks and whatever was asked before", () => {
    const one = open();
    const other = open();
    for (const act of inside) one.do(act);
    other.do({ do: "ask", signs: ["drum turns", "heat"] });
    for (const act of inside) other.do(act);
    const shown = [one, other].map((practice) => {
      const outcome = practice.do(ohms);
      return outcome.kind === "done"
        ? outcome.events.flatMap((event) => (event.kind === "measured" ? event.readings : []))
        : [];
    });
    expect(shown[0]).toHaveLength(1);
    expect(shown[0]).toEqual(shown[1]);
  });

  test("what is refused writes nothing, costs nothing, and leaves everything as it stands", () => {
    const practice = open();
    const { events, minutes, place } = {
      events: practice.events.length,
      minutes: practice.minutes,
      place: practice.place,
    };
    expect(practice.do(ohms).kind).toBe("danger");
    expect(practice.do({ do: "bridge" }).kind).toBe("danger");
    expect(practice.do({ do: "watch", signs: ["heat"] }).kind).toBe("done");
    practice.undo();
    expect(practice.place).toEqual(place);
    expect(practice.minutes).toBe(minutes);
    expect(practice.events).toHaveLength(events + 2);
    expect(practice.events.at(-1)).toMatchObject({ kind: "withdraws", event: practice.events.at(-2)?.id });
  });

  test("a part fitted and taken back leaves the machine faulty; fitted again with luck the same as before", () => {
    const practice = open();
    for (const act of [...inside, { do: "open", access: "back" } as const]) practice.do(act);
    const before = practice.truth.drawn.faults.length;
    const mend = { do: "mend", course: "heater/fit a new heater" } as const;
    practice.do(mend);
    const paid = practice.end("mended").bill;
    practice.undo();
    expect(practice.end("mended").bill.parts).toBe(0);
    expect(practice.end("mended").bill.cameBack).toBe(true);
    practice.do(mend);
    expect(practice.end("mended").bill).toEqual(paid);
    expect(before).toBeGreaterThan(0);
  });

  test("minutes of a short history add up by hand from the shop's and the sheet's figures", () => {
    const practice = open();
    const { machine, shop } = practice.desk;
    const told = practice.minutes;
    for (const act of inside) practice.do(act);
    practice.do(ohms);
    const lid = machine.access.find(({ id }) => id === "board")?.openMinutes ?? Number.NaN;
    const { proveDead, changeInstrument, reading } = shop.minutes;
    expect(practice.minutes - told).toBeCloseTo(0.3 + lid + proveDead + changeInstrument + reading, 9);
  });
});

test("lines are read from standard input; where they end, the job ends honestly", () => {
  const ran = faultwrightTyped("ask heat\nhelp\n", "practice", smallDryer, "--seed", "4", "--fault", "heater");
  expect(ran.err).toBe("");
  expect(ran.code).toBe(0);
  expectSaid(ran.out, ["(--seed 4)", "> ask heat\n", "> help\n", "What you can do.", "The lines ended here", "heater"]);
});

test("a part that the machine does not have is refused, with what was probably meant", () => {
  const ran = faultwrightTyped("", "practise", smallDryer, "--seed", "4", "--fault", "heatr");
  expect(ran).toMatchObject({ code: 2, out: "" });
  expect(ran.err).toContain("Did you mean heater?");
});
