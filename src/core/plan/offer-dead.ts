import { MAINS_PLUG, probeOf } from "../predict/index.ts";
import type { Point } from "../sheet/index.ts";
import { insulationOffer } from "./insulation.ts";
import type { Offer, OfferQuestion } from "./offer.ts";
import { lookAt } from "./offer-looks.ts";
import { connectorName, connectors, isNear, mainsPoints, pairs, partPoints, pinPairs } from "./places.ts";
import { deadNeeds, deadState, reading } from "./reading-question.ts";
import { accessOfSuspect, type Scene, type Suspect } from "./scene.ts";

/** Weight of coming and going from which operations are counted. */
const FITFUL = 0.03;
/** Operations counted in one go (common practice, no source). */
const OPERATIONS = 20;
/** Most points at one place between which all pairs are tried. */
const MOST_POINTS = 6;
/** Least capacitance that a meter tells from the wires (common practice, no source). */
const LEAST_FARADS = 0.1e-6;

/** Everything that can be read with the plug out, one offer a place and set-up. */
export function deadOffers(scene: Scene): Offer[] {
  return [
    ...mainsPlugOffers(scene),
    ...insulationOffer(scene),
    ...connectorOffers(scene),
    ...terminalOffers(scene),
    ...countOffers(scene),
  ];
}

/** Ohms at the pins of the mains plug: nothing opened, the outer ends of everything. */
function mainsPlugOffers(scene: Scene): Offer[] {
  const points = mainsPoints(scene);
  const questions = pairs(points).flatMap(([from, to]) => reading(scene, "ohms", deadState([], []), from, to));
  if (questions.length === 0) return [];
  return [
    {
      id: "plug/ohms",
      do: "read",
      says: "Plug out: measure at the pins of the mains plug",
      needs: deadNeeds(scene, "ohms", undefined, []),
      minutes: 0,
      questions,
      cautions: ["isolate"],
      sheetCautions: [],
      touchesPlug: true,
    },
  ];
}

/** Ohms at each connector in pin order, plugged in and pulled. */
function connectorOffers(scene: Scene): Offer[] {
  return connectors(scene)
    .filter(isNear(scene))
    .flatMap(({ plug, points }) => {
      const mains = mainsPoints(scene).filter((point) => point.id !== `${MAINS_PLUG}.PE` || scene.leakInQuestion);
      const across = pinPairs(points);
      const outward = points.flatMap((point) => mains.map((far) => [point, far] as const));
      const plugged = [...across, ...outward].flatMap(([from, to]) =>
        reading(scene, "ohms", deadState([], []), from, to),
      );
      const pulled = across.flatMap(([from, to]) => reading(scene, "ohms", deadState([plug.id], []), from, to));
      const name = connectorName(plug);
      const cautions = ["isolate", "edges"] as const;
      const sheetCautions = scene.board.groups.get(plug.access ?? "")?.cautions ?? [];
      const offers: Offer[] = [];
      if (plugged.length > 0) {
        offers.push({
          id: `at:${plug.id}`,
          do: "read",
          says: `Plug out: measure at ${name}, left plugged together`,
          needs: deadNeeds(scene, "ohms", plug.access, []),
          minutes: 0,
          questions: plugged,
          cautions,
          sheetCautions,
          touchesPlug: true,
        });
      }
      if (pulled.length > 0) {
        offers.push({
          id: `at:${plug.id}/pulled`,
          do: "read",
          says: `Plug out: pull ${name} and measure on its wires`,
          needs: deadNeeds(scene, "ohms", plug.access, [plug.id]),
          minutes: 0,
          questions: pulled,
          cautions,
          sheetCautions,
        });
      }
      return offers;
    });
}

/** Looks and ohms at the terminals of the suspected parts behind one cover. */
function terminalOffers(scene: Scene): Offer[] {
  const places = new Map<string, Suspect[]>();
  for (const suspect of scene.suspects) {
    const place = accessOfSuspect(suspect);
    if (place === undefined || suspect.part === undefined || isInner(scene, suspect)) continue;
    places.set(place, [...(places.get(place) ?? []), suspect]);
  }
  return [...places].flatMap(([place, suspects]) => {
    const group = scene.board.groups.get(place);
    if (group === undefined) return [];
    const looks = suspects.filter((one) => one.visible && !scene.state.looks.has(one.id)).slice(0, MOST_POINTS);
    const alone = suspects
      .filter((one) => one.part?.joint === undefined)
      .slice(0, MOST_POINTS)
      .flatMap((one) => ofPart(scene, one));
    const points = terminalsOf(scene, suspects).slice(0, MOST_POINTS);
    const ends = mainsPoints(scene).filter((point) => point.id !== `${MAINS_PLUG}.PE`);
    const joined = pairs(points).filter(([a, b]) => scene.branch[a.node] === scene.branch[b.node]);
    const between = [...joined, ...points.flatMap((point) => ends.map((end) => [point, end] as const))];
    const questions = [
      ...looks.map((one) => lookAt(scene, one)),
      ...alone,
      ...between.flatMap(([from, to]) =>
        reading(scene, "ohms", deadState([], []), from, to, [], {
          says: `${from.says} to ${to.says}${isOnePart(scene, from, to) ? ", all wires on" : ""}`,
        }),
      ),
    ];
    if (questions.length === looks.length) return [];
    return [
      {
        id: `inside:${place}`,
        do: "read" as const,
        says: `Plug out, ${group.says} open: look and measure there`,
        needs: deadNeeds(scene, "ohms", place, []),
        minutes: 0,
        questions,
        cautions: ["isolate", "edges"] as const,
        sheetCautions: [...group.cautions, ...suspects.slice(0, MOST_POINTS).flatMap((one) => one.hazards)],
        touchesPlug: true,
      },
    ];
  });
}

function isOnePart({ machine }: Scene, from: Point, to: Point): boolean {
  const partOf = ({ id }: Point): string => id.slice(0, id.lastIndexOf("."));
  return partOf(from) === partOf(to) && machine.parts.some(({ id }) => id === partOf(from));
}

/** Inside an assembly, where no probe reaches before it is taken apart. */
function isInner(scene: Scene, suspect: Suspect): boolean {
  const host = suspect.part?.joint?.part;
  const part = host === undefined ? suspect.part : scene.machine.parts.find((one) => one.id === host);
  return part?.of !== undefined;
}

/** The same operation again and again, for what comes and goes. */
function countOffers(scene: Scene): Offer[] {
  return scene.suspects
    .filter((suspect) => suspect.fitful >= FITFUL && !isInner(scene, suspect) && canBeWorked(suspect))
    .flatMap((suspect) => {
      const part = suspect.part;
      const points = part === undefined ? [] : partPoints(scene, part.id, [...part.pins.keys()]);
      const [from, to] = points;
      if (part === undefined || from === undefined || to === undefined || points.length !== 2) return [];
      const probe = probeOf({ quantity: "ohms", from: from.id, to: to.id, state: deadState([], []) });
      if (scene.state.probes.has(`count ${probe.id}`)) return [];
      return [
        {
          id: `count:${part.id}`,
          do: "count" as const,
          says: `Work ${part.says} ${OPERATIONS} times and count how often it is good`,
          needs: deadNeeds(scene, "ohms", part.access, []),
          minutes: 0,
          questions: [
            {
              says: `${part.says}: good how often of ${OPERATIONS}?`,
              observation: { kind: "count" as const, probe, good: OPERATIONS, of: OPERATIONS },
              minutes: OPERATIONS * scene.shop.minutes.operation,
              probe,
              from: from.says,
              to: to.says,
            },
          ],
          cautions: ["isolate"] as const,
          sheetCautions: part.instance.hazards,
        },
      ];
    });
}

/** A contact that is worked or a wire that is moved; nothing of a sensor or a coil can be. */
function canBeWorked({ part }: Suspect): boolean {
  return part?.joint !== undefined || part?.instance.duty !== undefined;
}

/** A part by itself, one wire off: ohms between its pins, farads where it holds a capacitor. */
function ofPart(scene: Scene, suspect: Suspect): OfferQuestion[] {
  const part = suspect.part;
  if (part === undefined) return [];
  const points = partPoints(scene, part.id, [...part.pins.keys()]);
  return pinPairs(points)
    .slice(0, 3)
    .flatMap(([from, to]) =>
      reading(scene, holdsCharge(scene, from, to) ? "farads" : "ohms", deadState([], [part.id]), from, to, [], {
        says: `${part.says} by itself, one wire off: ${from.says} to ${to.says}`,
        minutes: scene.shop.minutes.freePart,
      }),
    );
}

function holdsCharge(scene: Scene, from: Point, to: Point): boolean {
  return scene.machine.elements.some(
    ({ what, a, b, values }) =>
      what === "C" &&
      (values[0]?.nominal ?? 0) >= LEAST_FARADS &&
      ((a === from.node && b === to.node) || (a === to.node && b === from.node)),
  );
}

function terminalsOf(scene: Scene, suspects: readonly Suspect[]): Point[] {
  const points = new Map<string, Point>();
  for (const suspect of suspects) {
    const joint = suspect.part?.joint;
    const found =
      joint?.part !== undefined && joint.pin !== undefined
        ? partPoints(scene, joint.part, [joint.pin])
        : suspect.part === undefined
          ? []
          : partPoints(scene, suspect.part.id, [...suspect.part.pins.keys()]);
    for (const point of found) points.set(point.id, point);
  }
  return [...points.values()];
}
