import type { Quantity } from "../meter/index.ts";
import type { Probe, ProbeState } from "../predict/index.ts";
import { probeOf } from "../predict/index.ts";
import type { Machine, Plug, Point } from "../sheet/index.ts";
import { tiedPoints } from "./nearness.ts";
import type { Offer, OfferQuestion } from "./offer.ts";
import { lookAt } from "./offer-looks.ts";
import { watchQuestions } from "./offer-questions.ts";
import { accessOfSuspect, MAINS_PLUG, type Scene, type Suspect } from "./scene.ts";

/** Weight of paths to earth from which an insulation test is in question. */
const LEAK_IN_QUESTION = 0.03;
/** Weight of coming and going from which operations are counted. */
const FITFUL = 0.03;
/** Operations counted in one go (common practice, no source). */
const OPERATIONS = 20;
/** Most points at one place between which all pairs are tried. */
const MOST_POINTS = 6;

/** Everything that can be read on the machine from where it stands, one offer a place and set-up. */
export function readingOffers(scene: Scene): Offer[] {
  return [
    ...mainsPlugOffers(scene),
    ...wattsOffer(scene),
    ...earthOffers(scene),
    ...connectorOffers(scene),
    ...terminalOffers(scene),
    ...countOffers(scene),
    ...clippedOffers(scene),
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
      says: "At the mains plug, plug out",
      needs: deadNeeds(scene, "ohms", undefined, []),
      minutes: 0,
      questions,
      cautions: ["isolate"],
      sheetCautions: [],
      touchesPlug: true,
    },
  ];
}

/** Watts at the plug, step by step, and what is to be seen meanwhile. */
function wattsOffer(scene: Scene): Offer[] {
  const readings = scene.machine.steps.flatMap((step) => reading(scene, "watts", { kind: "live", step: step.id }));
  if (readings.length === 0) return [];
  return [
    {
      id: "plug/watts",
      do: "read",
      says: "Plug meter between, covers on, let it run",
      needs: { energy: "closed", access: [], pulled: [], ...inHand(scene, "watts") },
      minutes: scene.shop.minutes.runStep,
      questions: [...readings, ...watchQuestions(scene)],
      cautions: ["case-first", "closed", "rcd-lead"],
      sheetCautions: [],
    },
  ];
}

/** Insulation at the plug and leakage round the cord, where a path to earth is in question. */
function earthOffers(scene: Scene): Offer[] {
  if (scene.leaking < LEAK_IN_QUESTION) return [];
  const [line, neutral, earth] = ["L", "N", "PE"].map((pin) => scene.point(`${MAINS_PLUG}.${pin}`));
  const leakage = scene.machine.steps.flatMap((step) =>
    reading(scene, "leakage amps", { kind: "live", step: step.id }),
  );
  const offers: Offer[] = [];
  if (leakage.length > 0) {
    offers.push({
      id: "plug/leakage",
      do: "read",
      says: "Leakage clamp round the cord, covers on, let it run",
      needs: { energy: "closed", access: [], pulled: [], ...inHand(scene, "leakage amps") },
      minutes: scene.shop.minutes.runStep,
      questions: leakage,
      cautions: ["case-first", "closed", "rcd-lead"],
      sheetCautions: [],
    });
  }
  if (line === undefined || neutral === undefined || earth === undefined) return offers;
  const insulation = reading(scene, "insulation ohms", deadState([], []), line, earth, [neutral.id]);
  if (insulation.length > 0) {
    offers.push({
      id: "plug/insulation",
      do: "read",
      says: "Insulation at the mains plug: L and N joined, against earth",
      needs: deadNeeds(scene, "insulation ohms", undefined, []),
      minutes: 0,
      questions: insulation,
      cautions: ["isolate", "insulation"],
      sheetCautions: [],
      touchesPlug: true,
    });
  }
  return offers;
}

/** Ohms at each connector in pin order, plugged in and pulled. */
function connectorOffers(scene: Scene): Offer[] {
  return nearConnectors(scene).flatMap(({ plug, points }) => {
    const mains = mainsPoints(scene).filter(
      (point) => point.id !== `${MAINS_PLUG}.PE` || scene.leaking >= LEAK_IN_QUESTION,
    );
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
        says: `At ${name}, plug out`,
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
        says: `At ${name}, plug out and the connector pulled, on the wires`,
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
      ...between.flatMap(([from, to]) => reading(scene, "ohms", deadState([], []), from, to)),
    ];
    if (questions.length === looks.length) return [];
    return [
      {
        id: `inside:${place}`,
        do: "read" as const,
        says: `Behind ${group.says}, plug out`,
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

/** Inside an assembly, where no probe reaches before it is taken apart. */
function isInner(scene: Scene, suspect: Suspect): boolean {
  const host = suspect.part?.joint?.part;
  const part = host === undefined ? suspect.part : scene.machine.parts.find((one) => one.id === host);
  return part?.of !== undefined;
}

/** The same operation again and again, for what comes and goes. */
function countOffers(scene: Scene): Offer[] {
  return scene.suspects
    .filter((suspect) => suspect.fitful >= FITFUL && !isInner(scene, suspect))
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

/**
 * Volts across the loads at connectors that may be probed with clips, and from each pin to the live pole and the neutral
 * where those can be clipped behind the same cover. One offer a connector, in the step that drives the most.
 */
function clippedOffers(scene: Scene): Offer[] {
  const [step] = [...scene.machine.steps].sort((a, b) => b.drives.length - a.drives.length);
  if (step === undefined || step.drives.length === 0) return [];
  const reachable = connectors(scene).filter(({ points }) => points.every((point) => mayProbeLive(scene, point)));
  return reachable.filter(isNear(scene)).flatMap(({ plug, points }) => {
    const beside = reachable.filter((other) => other.plug.access === plug.access).flatMap((other) => other.points);
    const poles = [scene.poles.line, scene.poles.neutral].flatMap((pole) => tiedPoints(beside, pole).slice(0, 1));
    const toPoles = points.flatMap((point) =>
      poles.filter((pole) => !points.includes(pole)).map((pole) => [point, pole] as const),
    );
    const state: ProbeState = { kind: "live", step: step.id };
    const questions = [...pinPairs(points), ...toPoles].flatMap(([from, to]) =>
      reading(scene, "volts", state, from, to),
    );
    if (questions.length === 0) return [];
    const energy = points.every((point) => point.live === "clipped") ? ("clipped" as const) : ("handheld" as const);
    return [
      {
        id: `at:${plug.id}/${energy}/${step.id}`,
        do: "read" as const,
        says: `Volts at ${connectorName(plug)} in step ${step.id}`,
        needs: {
          energy,
          access: plug.access === undefined ? [] : [plug.access],
          pulled: [],
          ...inHand(scene, "volts"),
        },
        // Read, switch off, prove dead again, take the leads off.
        minutes: scene.shop.minutes.runStep + scene.shop.minutes.proveDead,
        questions,
        cautions: ["case-first", "prove-dead", energy, "rcd-lead", "no-bridging"] as const,
        sheetCautions: scene.board.groups.get(plug.access ?? "")?.cautions ?? [],
      },
    ];
  });
}

function mayProbeLive(scene: Scene, point: Point): boolean {
  return point.live === "clipped" || (scene.shop.handheld && point.live === "handheld");
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

/** Least capacitance that a meter tells from the wires (common practice, no source). */
const LEAST_FARADS = 0.1e-6;

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

function partPoints(scene: Scene, part: string, pins: readonly string[]): Point[] {
  return pins.map((pin) => scene.point(`${part}.${pin}`)).filter((point) => point !== undefined);
}

function mainsPoints(scene: Scene): Point[] {
  return ["L", "N", "PE"].map((pin) => scene.point(`${MAINS_PLUG}.${pin}`)).filter((point) => point !== undefined);
}

interface Connector {
  readonly plug: Plug;
  readonly points: readonly Point[];
}

/** Connectors of the likeliest machine whose points most machines have, the cheap ones to reach first. */
function connectors(scene: Scene): Connector[] {
  const cost = (plug: Plug): number => {
    const group = scene.board.groups.get(plug.access ?? "");
    return group === undefined || scene.state.open.has(group.id) ? 0 : group.openMinutes + group.closeMinutes;
  };
  return scene.machine.plugs
    .filter((plug) => plug.id !== MAINS_PLUG)
    .map((plug) => ({ plug, points: pinsOf(scene.machine, plug).flatMap((point) => scene.point(point.id) ?? []) }))
    .filter(({ points }) => points.length >= 2)
    .sort((a, b) => cost(a.plug) - cost(b.plug));
}

function nearConnectors(scene: Scene): Connector[] {
  return connectors(scene).filter(isNear(scene));
}

function isNear(scene: Scene): (connector: Connector) => boolean {
  return ({ points }) => points.some((point) => scene.near.has(point.node));
}

function pinsOf(machine: Machine, plug: Plug): Point[] {
  return plug.pins.flatMap((pin) => machine.points[pin.point] ?? []);
}

function connectorName(plug: Plug): string {
  return `connector ${plug.id} (${plug.ways} pins, pin 1 ${plug.pinOneSays})`;
}

/** All pairs of few pins; of many, neighbours and each with the last. */
function pinPairs(points: readonly Point[]): (readonly [Point, Point])[] {
  if (points.length <= 4) return pairs(points);
  const last = points.length - 1;
  return pairs(points).filter(([a, b]) => points.indexOf(b) - points.indexOf(a) === 1 || points.indexOf(b) === last);
}

function pairs(points: readonly Point[]): (readonly [Point, Point])[] {
  return points.flatMap((from, n) => points.slice(n + 1).map((to) => [from, to] as const));
}

function deadState(pulled: readonly string[], freed: readonly string[]): ProbeState {
  return { kind: "dead", pulled, freed, hands: new Map() };
}

function deadNeeds(
  scene: Scene,
  quantity: Quantity,
  access: string | undefined,
  pulled: readonly string[],
): Offer["needs"] {
  return { energy: "plug out", access: access === undefined ? [] : [access], pulled, ...inHand(scene, quantity) };
}

function inHand(scene: Scene, quantity: Quantity): { readonly instrument: string; readonly instrumentSays: string } {
  const meter = scene.meter(quantity);
  return { instrument: `${meter.id}/${quantity}`, instrumentSays: `${meter.says}, ${quantity}` };
}

/** One reading as a question, unless it was taken already. */
function reading(
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
