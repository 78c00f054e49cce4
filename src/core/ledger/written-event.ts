import { formatShown } from "../meter/index.ts";
import type { JobEvent, Measured, ReadingSet } from "./job.ts";
import { writtenVisit } from "./read-visit.ts";
import { keyOf, type WrittenEvent } from "./written-answer.ts";
import { writtenClosing } from "./written-closing.ts";
import { writtenMoney } from "./written-money.ts";

/** An event as a job file writes it: `readJob` reads the same event from it. Readings of one set-up become one event each. */
export function writtenEvents(event: JobEvent): readonly WrittenEvent[] {
  switch (event.kind) {
    case "told":
    case "heard":
    case "seen":
      return [{ kind: event.kind, body: Object.fromEntries(event.answers.map(({ sign, answer }) => [sign, answer])) }];
    case "answered":
      return [{ kind: "answered", body: Object.fromEntries(event.slots.map(({ slot, variant }) => [slot, variant])) }];
    case "looked":
      return [
        {
          kind: "looked",
          body: { at: event.at, ...(event.mode === undefined ? {} : { mode: event.mode }), found: event.found },
        },
      ];
    case "opened":
    case "closed":
      return [{ kind: event.kind, body: event.access }];
    case "unplugged":
      return [{ kind: "unplugged", body: "yes" }];
    case "isolated":
      return [{ kind: "isolated", body: event.tester ?? "two-pole tester" }];
    case "energised":
      return [{ kind: "energised", body: event.through ?? "RCD lead" }];
    case "measured":
      return event.readings.map((reading) => ({ kind: "measured", body: measuredBody(reading, event.set) }));
    case "counted": {
      const { from, to, good, of, set } = event;
      return [{ kind: "counted", body: { from, to, ...setBody(set), good, of } }];
    }
    case "cannot":
      return [{ kind: "cannot", body: { step: event.step, ...(event.why === undefined ? {} : { why: event.why }) } }];
    case "did": {
      const { remedy, on, worked, price } = event;
      const told = worked === undefined ? {} : { worked: worked ? "yes" : "no" };
      return [{ kind: "did", body: { remedy, on, ...told, ...(price === undefined ? {} : { price }) } }];
    }
    case "why":
      return [{ kind: "why", body: { [event.protector]: event.reason } }];
    case "note":
      return [{ kind: "note", body: event.text }];
    case "customer":
    case "payer":
    case "allowed":
    case "fees":
    case "offered":
    case "accepted":
    case "declined":
    case "charged":
    case "issued":
    case "paid":
    case "ordered":
    case "arrived":
      return [writtenMoney(event)];
    case "operated":
    case "heated":
    case "loaded":
    case "logged":
    case "safety":
    case "tested":
    case "ticked":
    case "checked":
    case "unproved":
    case "left":
    case "notice":
      return [writtenClosing(event)];
    case "visit":
      return [writtenVisit(event)];
    // Withdrawals name events by their place, and what this version does not know has no form of ours.
    case "withdraws":
    case "unknown":
      return [];
  }
}

function measuredBody(
  { quantity, from, to, joinedWith, measure, shown }: Measured["readings"][number],
  set: ReadingSet,
): Record<string, unknown> {
  const value = shown.kind === "over limit" ? "OL" : formatShown(shown, quantity);
  if (measure !== undefined) return { cause: measure.cause, what: measure.id, shows: value, ...meterOf(set) };
  const joined = joinedWith.length === 0 ? {} : { joined: joinedWith };
  const points = from === undefined ? {} : { from, ...joined, to };
  return { ...points, ...setBody(set), [keyOf(quantity)]: value, ...meterOf(set), leads: set.leads };
}

function meterOf({ meter }: ReadingSet): Record<string, unknown> {
  return meter === undefined ? {} : { meter };
}

function setBody({ state, pulled, freed, hands, degrees }: ReadingSet): Record<string, unknown> {
  const live = state.kind === "live" ? state : undefined;
  return {
    ...(state.kind === "bench" ? { state: "bench" } : {}),
    ...(live?.step === undefined ? {} : { in: live.step }),
    ...(live?.condition === undefined ? {} : { condition: live.condition }),
    ...(live?.command === undefined ? {} : { command: live.command }),
    ...(pulled.length === 0 ? {} : { pulled }),
    ...(freed.length === 0 ? {} : { freed }),
    ...(hands.size === 0 ? {} : { hands: Object.fromEntries(hands) }),
    ...(degrees === undefined ? {} : { hot: degrees }),
  };
}
