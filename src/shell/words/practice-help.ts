import type { Expected } from "../../core/practice/index.ts";

/** What can be typed, in the order of a job. */
export const HELP: readonly string[] = [
  "What you can do. Names may be cut short; with no name you get a list, then a number is enough. Several things",
  "on one line with `;` between.",
  "",
  "  ask heat                     ask the customer; `ask` alone lists the questions",
  "  watch heat, airflow          covers on, plug in: let it run and see for yourself",
  "  look lint                    eyes and hands at a part, a connection, or what is not electrical",
  "  where heater                 which cover it is behind, its pins; `where` alone: all covers and what is there",
  "  plug out · prove dead · plug in · discharge     the last lets off what capacitors hold",
  "  open back · close back       covers",
  "  pull X3 · push X3            a connector; `free heater` · `refit heater`: one wire off a part",
  "  measure X3.1 X3.3            ohms; also X3 1-2, 1-3 · heater s1 common · X3 (gives its pairs)",
  "  measure volts X3.1 X1.2 in heat    clipped on dead, run, read; millivolts are shown by themselves",
  "  measure insulation L+N earth · measure farads run-cap a b",
  "  watts heat · leakage heat · amps heat    at the plug, covers on",
  "  measure load rise            a measurement of what is not electrical; `measure` alone lists connectors",
  "  hold door 1                  hold a switch or the door while you measure",
  "  count door-switch a b 20     operate it twenty times: how often was it good?",
  "  mend heater                  what can be done to it, with price; then the number",
  "  why one-shot lint            why a protector opened",
  "  verify                       does it work now?",
  "  finish                       closed as mended · `stop the control is dead`: stopped, with what you say",
  "  undo                         takes the last act back",
  "",
  "  next · faults                a hint, when you want one: the next step, the possible faults",
  "  remedies heater · history · state · help",
];

/** What was expected, for a word that was not understood. */
const EXPECTED: Readonly<Record<Expected, string>> = {
  verb: "`help` lists what can be typed",
  sign: "`ask` alone lists the questions",
  place: "`look` alone lists parts and causes",
  cover: "`open` alone lists the covers",
  connector: "`pull` alone lists the connectors",
  part: "`free` alone lists the parts",
  point: "two points, such as X3.1 X3.3",
  run: "a step of the programme; `watts` alone lists them",
  input: "`hold` alone lists what can be held",
  gauge: "a measurement of what is not electrical",
  remedy: "a part, connection or cause: `mend heater`",
  why: "a protector and a reason; `why` alone lists them",
  number: "a number of the list",
  "two points": "two points: X3.1 X3.3, or X3 1-3, or heater s1 common; `where heater` tells its pins",
  operations: "two points and how often: count door-switch a b 20",
};

/** A line that was not understood. */
export function unclearInWords(word: string, expected: Expected, near: string | undefined): string {
  const meant = near === undefined ? "" : ` Did you mean ${near}?`;
  return `"${word}" is not understood.${meant} Expected: ${EXPECTED[expected]}.`;
}
