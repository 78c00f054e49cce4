import type { Quantity } from "../meter/index.ts";
import type { SetUpAct } from "../plan/index.ts";
import type { Probe } from "../predict/index.ts";
import type { Observation } from "../sign/index.ts";
import { VALUE_KEYS } from "./read-measured.ts";

/** An event as a job file writes it: its kind, and its body. */
export interface WrittenEvent {
  readonly kind: string;
  readonly body: unknown;
}

/** What stands in a written question where its answer goes. */
export const BLANK = "?";

const KEY_OF: ReadonlyMap<Quantity, string> = new Map([...VALUE_KEYS].map(([key, quantity]) => [quantity, key]));

/** What a quantity is written under. */
export function keyOf(quantity: Quantity): string {
  return quantity === "ohms" ? "shows" : (KEY_OF.get(quantity) ?? "shows");
}

/**
 * The event that writes down what a step asks, with `BLANK` where the answer goes. The meter and its leads are left out:
 * the shop's own are taken then.
 */
export function writtenQuestion(
  asked: Observation,
): WrittenEvent & { readonly body: Readonly<Record<string, unknown>> } {
  switch (asked.kind) {
    case "sign":
      return { kind: asked.witness, body: { [asked.sign]: BLANK } };
    case "look":
      return {
        kind: "looked",
        body: { at: asked.at, ...(asked.mode === undefined ? {} : { mode: asked.mode }), found: BLANK },
      };
    case "answer":
      return { kind: "answered", body: { [asked.slot]: BLANK } };
    case "count":
      return { kind: "counted", body: { ...pointsOf(asked.probe), ...setUpOf(asked.probe), good: BLANK, of: BLANK } };
    case "reading": {
      const { probe } = asked;
      if (probe.measure !== undefined)
        return { kind: "measured", body: { cause: probe.measure.cause, what: probe.measure.id, shows: BLANK } };
      const key = keyOf(probe.quantity);
      return { kind: "measured", body: { ...pointsOf(probe), ...setUpOf(probe), [key]: BLANK } };
    }
  }
}

/**
 * The event that writes down the answer to one question of a step. The answer is not checked here: `readJob` reads it as
 * it would read a typed file.
 *
 * @param asked   the question's observation, with whatever placeholder result it carries
 * @param answer  what was said, seen or shown: `cold`, `bad`, `26.4`, `OL`, `19 of 20`, a variant
 */
export function writtenAnswer(asked: Observation, answer: string): WrittenEvent {
  const { kind, body } = writtenQuestion(asked);
  if (asked.kind === "count") {
    const [good, of] = answer.split(/\s*(?:of|\/)\s*/).map(Number);
    return { kind, body: { ...body, good, of } };
  }
  const filled = Object.fromEntries(
    Object.entries(body).map(([key, value]) => [key, value === BLANK ? answer : value]),
  );
  if (asked.kind !== "reading") return { kind, body: filled };
  const { meter, leads, probe } = asked;
  const isDeadOhms = probe.measure === undefined && probe.state.kind !== "live" && probe.quantity === "ohms";
  const nulled = typeof leads === "object" ? leads.ohms : leads;
  return { kind, body: { ...filled, meter: meter.id, ...(isDeadOhms ? { leads: nulled } : {}) } };
}

/** What an act of getting ready writes down; acts that leave the machine as it is write nothing. */
export function writtenAct(act: SetUpAct): WrittenEvent | undefined {
  switch (act.do) {
    case "open":
      return { kind: "opened", body: act.access };
    case "close":
      return { kind: "closed", body: act.access };
    case "plug out":
      return { kind: "unplugged", body: "yes" };
    case "prove dead":
      return { kind: "isolated", body: "two-pole tester" };
    case "plug in through an RCD lead":
      return { kind: "energised", body: "RCD lead" };
    default:
      return undefined;
  }
}

function pointsOf({ from, to, joinedWith = [] }: Probe): Record<string, unknown> {
  if (from === undefined) return {};
  return { from, ...(joinedWith.length === 0 ? {} : { joined: joinedWith }), to };
}

/** What was pulled, freed, held or running: the same reading in another state is another reading. */
function setUpOf({ state }: Probe): Record<string, unknown> {
  if (state.kind === "bench") return { state: "bench" };
  if (state.kind === "live") {
    if (state.command !== undefined) return { command: state.command };
    if (state.condition !== undefined) return { condition: state.condition };
    return state.step === undefined ? { state: "live" } : { in: state.step };
  }
  return {
    ...(state.pulled.length === 0 ? {} : { pulled: state.pulled }),
    ...(state.freed.length === 0 ? {} : { freed: state.freed }),
    ...(state.hands.size === 0 ? {} : { hands: Object.fromEntries(state.hands) }),
  };
}
