import type { Quantity } from "../meter/index.ts";
import type { Observation } from "../sign/index.ts";
import { VALUE_KEYS } from "./read-measured.ts";

/** An event as a job file writes it: its kind, and its body. */
export interface WrittenEvent {
  readonly kind: string;
  readonly body: unknown;
}

/** What a quantity is written under; a cause's own measurement, and ohms with the plug out, are `shows`. */
const KEY_OF: ReadonlyMap<Quantity, string> = new Map([...VALUE_KEYS].map(([key, quantity]) => [quantity, key]));

/**
 * The event that writes down the answer to one question of a step. The answer is not checked here: `readJob` reads it as
 * it would read a typed file.
 *
 * @param asked   the question's observation, with whatever placeholder result it carries
 * @param answer  what was said, seen or shown: `cold`, `bad`, `26.4`, `OL`, `19 of 20`, a variant
 */
export function writtenAnswer(asked: Observation, answer: string): WrittenEvent {
  switch (asked.kind) {
    case "sign":
      return { kind: asked.witness, body: { [asked.sign]: answer } };
    case "look":
      return {
        kind: "looked",
        body: { at: asked.at, found: answer, ...(asked.mode === undefined ? {} : { mode: asked.mode }) },
      };
    case "answer":
      return { kind: "answered", body: { [asked.slot]: answer } };
    case "count": {
      const [good, of] = answer.split(/\s*(?:of|\/)\s*/).map(Number);
      return {
        kind: "counted",
        body: { from: asked.probe.from, to: asked.probe.to, good, of, ...setUpOf(asked.probe) },
      };
    }
    case "reading": {
      const { probe, meter, leads } = asked;
      const dead = probe.measure === undefined && probe.state.kind !== "live" && probe.quantity === "ohms";
      const key = probe.measure !== undefined || dead ? "shows" : (KEY_OF.get(probe.quantity) ?? "shows");
      const where =
        probe.measure !== undefined
          ? { cause: probe.measure.cause, what: probe.measure.id }
          : probe.from === undefined
            ? {}
            : {
                from: probe.from,
                to: probe.to,
                ...(probe.joinedWith === undefined || probe.joinedWith.length === 0
                  ? {}
                  : { joined: probe.joinedWith }),
              };
      const nulled = typeof leads === "object" ? leads.ohms : leads;
      return {
        kind: "measured",
        body: {
          ...where,
          ...(probe.measure === undefined ? setUpOf(probe) : {}),
          [key]: answer,
          meter: meter.id,
          ...(dead ? { leads: nulled } : {}),
        },
      };
    }
  }
}

function setUpOf({ state }: Extract<Observation, { kind: "reading" | "count" }>["probe"]): Record<string, unknown> {
  if (state.kind === "bench") return { state: "bench" };
  if (state.kind === "live") {
    const { step, condition, command } = state;
    return {
      state: "live",
      ...(step === undefined ? {} : { in: step }),
      ...(condition === undefined ? {} : { condition }),
      ...(command === undefined ? {} : { command }),
    };
  }
  return {
    ...(state.pulled.length === 0 ? {} : { pulled: state.pulled }),
    ...(state.freed.length === 0 ? {} : { freed: state.freed }),
    ...(state.hands.size === 0 ? {} : { hands: Object.fromEntries(state.hands) }),
  };
}
