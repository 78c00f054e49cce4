import { quantityOf } from "../meter/index.ts";
import { probeOf } from "../predict/index.ts";
import { NEEDS_NOTHING, type Offer, type OfferQuestion } from "./offer.ts";
import { accessOfSuspect, type Scene, type Suspect } from "./scene.ts";

/** Where nothing is opened. */
const OUTSIDE = "";

/**
 * Looks with eyes and hands, one offer a place: everything suspected behind one cover, and everything in plain view or
 * felt by hand from outside.
 */
export function lookOffers(scene: Scene): Offer[] {
  const places = new Map<string, Suspect[]>();
  const felt = scene.suspects.flatMap((suspect) => feltAt(scene, suspect));
  if (felt.length > 0) places.set(OUTSIDE, []);
  for (const suspect of scene.suspects) {
    if (!suspect.visible || scene.state.looks.has(suspect.id)) continue;
    const place = accessOfSuspect(suspect) ?? OUTSIDE;
    places.set(place, [...(places.get(place) ?? []), suspect]);
  }
  return [...places].map(([place, suspects]) => {
    const group = scene.board.groups.get(place);
    const inside = group !== undefined;
    const byHand = inside ? [] : felt;
    return {
      id: inside ? `look:${place}` : "look:outside",
      do: "look" as const,
      says: !inside
        ? "Look, with eyes and hands, before anything is opened"
        : scene.state.open.has(place)
          ? `Plug out, ${group.says} open: look there`
          : `Open ${group.says} and look`,
      needs: inside
        ? { energy: "plug out" as const, access: [place], pulled: [] }
        : { energy: "plug out" as const, access: [], pulled: [] },
      minutes: 0,
      questions: [...suspects.map((suspect) => lookAt(scene, suspect)), ...byHand],
      cautions: [
        "isolate" as const,
        ...(inside ? (["edges"] as const) : []),
        ...(byHand.length > 0 ? (["belt"] as const) : []),
      ],
      sheetCautions: [
        ...(group?.cautions ?? []),
        ...suspects.flatMap((suspect) => [
          ...(suspect.cause?.look?.cautions ?? []),
          ...(inside && suspect.part !== undefined ? suspect.hazards : []),
        ]),
      ],
    };
  });
}

/** Ways a suspect fails that are felt with nothing opened, each a question of its own: does it turn at all, is it stiff? */
function feltAt(scene: Scene, { id, part }: Suspect): OfferQuestion[] {
  return [...(part?.byHand ?? [])]
    .filter(([mode]) => !scene.state.looks.has(id) && !scene.state.looks.has(`${id}/${mode}`))
    .map(([mode, says]) => ({
      says: `${says}?`,
      observation: { kind: "look" as const, at: id, mode, found: "bad" as const },
      minutes: scene.shop.minutes.look,
    }));
}

/** A look at one suspect. */
export function lookAt(scene: Scene, suspect: Suspect): OfferQuestion {
  const bad = suspect.cause?.look?.says ?? looksOf(scene, suspect);
  const name = suspect.part?.says ?? suspect.cause?.says ?? suspect.id;
  return {
    says: bad === undefined ? name : `${name}: ${bad}?`,
    observation: { kind: "look", at: suspect.id, found: "bad" },
    minutes: suspect.cause?.look?.minutes ?? scene.shop.minutes.look,
  };
}

function looksOf(scene: Scene, suspect: Suspect): string | undefined {
  const rules = suspect.part?.instance.modes ?? [];
  const looks = [...new Set(rules.map((rule) => rule.looks).filter((text) => text !== undefined))];
  return looks.length > 0
    ? looks.join("; ")
    : scene.machine.parts.some((part) => part.id === suspect.id)
      ? undefined
      : suspect.id;
}

/** Measurements of a cause that is not electrical: litres a minute, kelvin, millimetres. */
export function measureOffers(scene: Scene): Offer[] {
  return scene.suspects.flatMap((suspect) => {
    const cause = suspect.cause;
    if (cause === undefined) return [];
    return cause.measures.flatMap((measure) => {
      const probe = probeOf({
        quantity: quantityOf(measure.unit),
        measure: { cause: cause.id, id: measure.id },
        state: { kind: "dead", pulled: [], freed: [], hands: new Map() },
      });
      if (scene.state.probes.has(probe.id)) return [];
      const meter = scene.meter(probe.quantity);
      return [
        {
          id: `measure:${cause.id}/${measure.id}`,
          do: "read" as const,
          says: `Measure ${measure.says}`,
          needs:
            measure.access === undefined
              ? NEEDS_NOTHING
              : { energy: "any" as const, access: [measure.access], pulled: [] },
          minutes: 0,
          questions: [
            {
              says: measure.says,
              observation: {
                kind: "reading" as const,
                probe,
                meter,
                leads: "nulled" as const,
                shown: { kind: "over limit" as const },
              },
              minutes: measure.minutes,
              probe,
              meter,
            },
          ],
          cautions: [],
          sheetCautions: measure.cautions,
        },
      ];
    });
  });
}
