import { MAINS_PLUG, probeOf, tiedTo } from "../predict/index.ts";
import { type Course, remediesIn } from "../remedy/index.ts";
import type { Point } from "../sheet/index.ts";
import type { Offer } from "./offer.ts";
import { partPoints } from "./places.ts";
import { deadNeeds, deadState, reading } from "./reading-question.ts";
import { accessOfSuspect, type Scene, type Suspect } from "./scene.ts";

/** Of a part that is suspected, share of the suspicion from which it is suspected of a path to earth. */
const MOSTLY = 0.5;

/**
 * A machine that trips, or tingles, is not run before its insulation was read with the plug out: what would be seen could
 * hurt whoever looks (common practice, no source; local rules first).
 */
export function runsUnread(scene: Scene, { needs }: Offer): boolean {
  const live = needs.energy === "closed" || needs.energy === "clipped" || needs.energy === "handheld";
  return live && scene.leakLikely && !insulationRead(scene);
}

/**
 * Reading a part's own insulation, one wire off, owed before a new one is bought for a path to earth: from the plug a part
 * behind contacts on both poles is not reached. Undefined where it was read, where no probe reaches it, or where the part
 * is not meant for that.
 */
export function readBefore(scene: Scene, course: Course): Offer | undefined {
  if (course.price === 0 || course.remakes === true) return undefined;
  const unread = remediesIn(course.id)
    .flatMap(({ on }) => scene.suspects.filter(({ id }) => id === on))
    .find((suspect) => suspect.leaks >= MOSTLY * suspect.p && !isOwnRead(scene, suspect));
  return unread === undefined ? undefined : ownInsulation(scene, unread);
}

/** Its insulation, or its ohms to earth by itself, were read since the last repair. */
function isOwnRead(scene: Scene, suspect: Suspect): boolean {
  const { ends, earths } = ownEnds(scene, suspect);
  const read = [...scene.state.probes];
  return ends.some(
    ({ id: end }) =>
      read.some((probe) => probe.startsWith(`insulation ohms ${end}–`)) ||
      earths.some(({ id: earth }) => read.some((probe) => probe.startsWith(`ohms ${end}–${earth} `))),
  );
}

function insulationRead({ state }: Scene): boolean {
  return [...state.probes].some((probe) => probe.startsWith("insulation ohms "));
}

/**
 * At the mains plug, where a path to earth is what the job is about; where it is only in question, once ohms to earth were
 * read there: a coil at the case shows by the meter in the hand.
 */
export function insulationOffer(scene: Scene): Offer[] {
  const [line, neutral, earth] = ["L", "N", "PE"].map((pin) => scene.point(`${MAINS_PLUG}.${pin}`));
  if (!scene.leakInQuestion || line === undefined || neutral === undefined || earth === undefined) return [];
  const ohms = probeOf({ quantity: "ohms", from: line.id, to: earth.id, state: deadState([], []) });
  if (!scene.leakLikely && !scene.state.probes.has(ohms.id)) return [];
  const questions = reading(scene, "insulation ohms", deadState([], []), line, earth, [neutral.id]);
  if (questions.length === 0) return [];
  return [
    {
      id: "plug/insulation",
      do: "read",
      says: "Plug out: insulation at the mains plug, L and N joined, against earth",
      needs: deadNeeds(scene, "insulation ohms", undefined, []),
      minutes: 0,
      questions,
      cautions: ["isolate", "insulation", "prove-dead"],
      sheetCautions: [],
      touchesPlug: true,
    },
  ];
}

/** A part by itself, one wire off, against earth. */
function ownInsulation(scene: Scene, suspect: Suspect): Offer | undefined {
  const { part } = suspect;
  const access = accessOfSuspect(suspect);
  const { ends, earths } = ownEnds(scene, suspect);
  const [end] = ends;
  const [earth] = earths;
  if (part === undefined || end === undefined || earth === undefined) return undefined;
  return {
    id: `insulation:${part.id}`,
    do: "read",
    says: `Plug out, one wire off: insulation of ${part.says} against earth`,
    needs: deadNeeds(scene, "insulation ohms", access, []),
    minutes: 0,
    questions: reading(scene, "insulation ohms", deadState([], [part.id]), end, earth, [], {
      says: `${part.says} by itself, one wire off: ${end.says} to earth`,
      minutes: scene.shop.minutes.freePart,
    }),
    cautions: ["isolate", "insulation", "prove-dead", "edges"],
    sheetCautions: [...(scene.board.groups.get(access ?? "")?.cautions ?? []), ...suspect.hazards],
    touchesPlug: true,
  };
}

/** Ends of a part, and points of it and of the mains plug that are earth; no ends where no probe reaches it. */
function ownEnds(
  scene: Scene,
  { part }: Suspect,
): { readonly ends: readonly Point[]; readonly earths: readonly Point[] } {
  const earth = scene.point(`${MAINS_PLUG}.PE`);
  if (part === undefined || part.joint !== undefined || part.of !== undefined || earth === undefined)
    return { ends: [], earths: [] };
  const earthed = tiedTo(scene.machine, [earth.node]);
  const points = partPoints(scene, part.id, [...part.pins.keys()]);
  return {
    ends: points.filter(({ node }) => !earthed.has(node)),
    earths: [earth, ...points.filter(({ node }) => earthed.has(node))],
  };
}
