import type { PlanStep, SetUpAct } from "../../core/plan/index.ts";
import type { Probe } from "../../core/predict/index.ts";
import type { Observation } from "../../core/sign/index.ts";

/** The lines to put into a job file when a step is taken: getting ready, what is found, what is mended. */
export function linesToWrite(step: PlanStep): string[] {
  const { setUp, questions, course } = step;
  const done = (course?.id.split(" + ") ?? []).map((id) => {
    const [on = "", ...remedy] = id.split("/");
    return `- did: {remedy: ${JSON.stringify(remedy.join("/"))}, on: ${JSON.stringify(on)}, worked: ?}`;
  });
  return [...setUp.flatMap(lineOfAct), ...questions.map(({ observation }) => lineToWrite(observation)), ...done];
}

function lineOfAct(act: SetUpAct): string[] {
  switch (act.do) {
    case "open":
      return [`- opened: ${act.access}`];
    case "close":
      return [`- closed: ${act.access}`];
    case "prove dead":
      return ["- isolated: two-pole tester"];
    case "plug in through an RCD lead":
      return ["- energised: RCD lead"];
    default:
      return [];
  }
}

/** The line to put into a job file for something to be learned, with a `?` where the answer goes. */
export function lineToWrite(observation: Observation): string {
  switch (observation.kind) {
    case "sign":
      return `- ${observation.witness}: {${observation.sign}: ?}`;
    case "look":
      return `- looked: {at: ${observation.at}, found: ?}`;
    case "answer":
      return `- answered: {${observation.slot}: ?}`;
    case "count":
      return `- counted: {${[...pointsOf(observation.probe), ...setUpOf(observation.probe)].join(", ")}, good: ?, of: ?}`;
    case "reading": {
      const { probe } = observation;
      if (probe.measure !== undefined)
        return `- measured: {cause: ${probe.measure.cause}, what: ${probe.measure.id}, shows: ?}`;
      const value = `${shownBy[probe.quantity] ?? "shows"}: ?`;
      return `- measured: {${[...pointsOf(probe), ...setUpOf(probe), value].join(", ")}}`;
    }
  }
}

function pointsOf({ from, to, joinedWith = [] }: Probe): string[] {
  if (from === undefined) return [];
  const joined = joinedWith.length === 0 ? [] : [`joined: [${joinedWith.join(", ")}]`];
  return [`from: ${from}`, ...joined, `to: ${to}`];
}

/** What was pulled, freed, held or running: the same reading in another state is another reading. */
function setUpOf({ state }: Probe): string[] {
  if (state.kind === "bench") return ["state: bench"];
  if (state.kind === "live") {
    if (state.command !== undefined) return [`command: ${state.command}`];
    return state.condition !== undefined ? [`condition: ${state.condition}`] : [`in: ${state.step ?? "?"}`];
  }
  const hands = [...state.hands].map(([input, value]) => `${input}: ${value}`);
  return [
    ...(state.pulled.length > 0 ? [`pulled: [${state.pulled.join(", ")}]`] : []),
    ...(state.freed.length > 0 ? [`freed: [${state.freed.join(", ")}]`] : []),
    ...(hands.length > 0 ? [`hands: {${hands.join(", ")}}`] : []),
  ];
}

/** Keys of a job file that say what was read; all else is `shows`. */
const shownBy: Readonly<Record<string, string>> = {
  volts: "volts",
  watts: "watts",
  amps: "amps",
  "leakage amps": "leakage",
  "insulation ohms": "insulation",
  farads: "farads",
  "volts dc": "volts dc",
  hertz: "hertz",
};
