import type { Quantity } from "../meter/index.ts";
import { type Probe, type ProbeState, probeOf } from "../predict/index.ts";
import type { Point } from "../sheet/index.ts";
import { instrumentWords } from "./instrument.ts";
import type { Offer, OfferQuestion } from "./offer.ts";
import type { Scene } from "./scene.ts";

/** One reading as a question, unless it was taken already. */
export function reading(
  scene: Scene,
  quantity: Quantity,
  state: ProbeState,
  from?: Point,
  to?: Point,
  joinedWith: readonly string[] = [],
  words: { readonly says?: string; readonly minutes?: number } = {},
): OfferQuestion[] {
  if (from !== undefined && to !== undefined && from.node === to.node && state.kind === "dead") return [];
  const probe: Probe = probeOf({
    quantity,
    state,
    ...(from === undefined ? {} : { from: from.id }),
    ...(to === undefined ? {} : { to: to.id }),
    ...(joinedWith.length === 0 ? {} : { joinedWith }),
  });
  if (scene.state.probes.has(probe.id)) return [];
  const meter = scene.meter(quantity);
  const step = state.kind === "live" ? ` in step ${state.step ?? state.condition ?? ""}` : "";
  const plain = from === undefined || to === undefined ? `${quantity}${step}` : `${from.says} to ${to.says}${step}`;
  return [
    {
      says: words.says ?? plain,
      observation: { kind: "reading", probe, meter, leads: "nulled", shown: { kind: "over limit" } },
      minutes: scene.shop.minutes.reading + (words.minutes ?? 0),
      probe,
      meter,
      ...(from === undefined ? {} : { from: from.says }),
      ...(to === undefined ? {} : { to: to.says }),
    },
  ];
}

export function deadState(pulled: readonly string[], freed: readonly string[]): ProbeState {
  return { kind: "dead", pulled, freed, hands: new Map() };
}

export function deadNeeds(
  scene: Scene,
  quantity: Quantity,
  access: string | undefined,
  pulled: readonly string[],
): Offer["needs"] {
  return { energy: "plug out", access: access === undefined ? [] : [access], pulled, ...inHand(scene, quantity) };
}

export function inHand(
  scene: Scene,
  quantity: Quantity,
): { readonly instrument: string; readonly instrumentSays: string } {
  const meter = scene.meter(quantity);
  return { instrument: `${meter.id}/${quantity}`, instrumentSays: instrumentWords(meter, quantity) };
}
