import type { Machine, SignRule, SignTest } from "../sheet/index.ts";
import { NEEDS_NOTHING, type Offer, type OfferQuestion } from "./offer.ts";
import type { Scene } from "./scene.ts";

/** Id of the step that asks the customer, on site. */
export const CUSTOMER = "ask:customer";

/** Questions to the customer that were not answered yet: one by one on the telephone, the best few together on site. */
export function questionOffers(scene: Scene): Offer[] {
  const onPhone = scene.options.where === "telephone";
  const questions = signsOf(scene)
    .filter((sign) => !answered(scene, sign.id, "told", "seen") && !scene.state.cannot.has(`ask:${sign.id}`))
    .map((sign) => ({
      id: sign.id,
      says: sign.ask,
      observation: { kind: "sign" as const, sign: sign.id, answer: sign.answers[0] ?? "", witness: "told" as const },
      minutes: scene.shop.minutes.ask,
    }));
  const frame = { do: "ask" as const, needs: NEEDS_NOTHING, minutes: 0, sheetCautions: [] };
  if (onPhone) {
    return questions.map(({ id, ...question }) => ({
      ...frame,
      id: `ask:${id}`,
      says: question.says,
      questions: [question],
      cautions: ["on-the-phone"] as const,
    }));
  }
  if (questions.length === 0) return [];
  return [{ ...frame, id: CUSTOMER, says: "Ask the customer", questions, cautions: [] }];
}

/** Signs that can be watched while the machine runs; a sign that is about tripping is not provoked. */
export function watchQuestions(scene: Scene): OfferQuestion[] {
  return signsOf(scene)
    .filter((sign) => sign.rule.kind !== "when-first" && (sign.in !== undefined || sign.rule.kind !== "table"))
    .filter((sign) => !answered(scene, sign.id, "seen"))
    .map((sign) => ({
      says: sign.ask,
      observation: { kind: "sign" as const, sign: sign.id, answer: sign.answers[0] ?? "", witness: "seen" as const },
      minutes: scene.shop.minutes.look,
      waits: waitFor(sign),
    }));
}

/** Minutes into the run at which a sign shows, where the sheet does not say (from memory). */
const WAITS = { now: 0, seconds: 0.5, minutes: 8, end: 15 } as const;

/** Minutes into the run at which a sign shows. */
export function waitFor(sign: SignRule): number {
  if (sign.minutes !== undefined) return sign.minutes;
  if (sign.rule.kind === "test") return waitOf(sign.rule.test);
  if (sign.rule.kind === "levels") return Math.max(0, ...sign.rule.tests.map(waitOf));
  return WAITS.seconds;
}

function waitOf(test: SignTest): number {
  if ("at" in test) return WAITS[test.at];
  if ("not" in test) return waitOf(test.not);
  return Math.max(0, ...("all" in test ? test.all : test.any).map(waitOf));
}

/** See it fail: covers on, let it run, and watch. */
export function watchOffer(scene: Scene): Offer[] {
  const questions = watchQuestions(scene);
  if (questions.length === 0) return [];
  return [
    {
      id: "see:run",
      do: "see",
      says: "Let it run with the covers on, and watch",
      needs: { energy: "closed", access: [], pulled: [] },
      minutes: scene.shop.minutes.runStep,
      questions,
      cautions: ["case-first", "closed", "rcd-lead"],
      sheetCautions: [],
    },
  ];
}

/** "Which lock is it?": one offer a slot whose variants are still open. */
export function slotOffers(scene: Scene): Offer[] {
  const variants = new Map<string, Map<string, number>>();
  scene.board.live.hypotheses.forEach((_, i) => {
    for (const [slot, variant] of scene.board.machineOf(i).choice) {
      const weights = variants.get(slot) ?? new Map<string, number>();
      weights.set(variant, (weights.get(variant) ?? 0) + (scene.board.live.weights[i] as number));
      variants.set(slot, weights);
    }
  });
  return [...variants]
    .filter(([slot, weights]) => weights.size > 1 && !scene.state.slots.has(slot))
    .map(([slot, weights]) => {
      const words = scene.options.slots?.get(slot);
      const names = [...weights.keys()];
      const says = words?.ask ?? `Which ${slot} is it: ${names.join(" or ")}?`;
      const access = whereSlotShows(scene, slot);
      return {
        id: `slot:${slot}`,
        do: "slot" as const,
        says,
        needs: access === undefined ? NEEDS_NOTHING : { energy: "plug out" as const, access: [access], pulled: [] },
        minutes: 0,
        questions: [
          {
            says,
            observation: { kind: "answer" as const, slot, variant: names[0] ?? "" },
            minutes: scene.shop.minutes.look,
          },
        ],
        cautions: access === undefined ? [] : (["isolate"] as const),
        sheetCautions: [],
      };
    });
}

/**
 * The cover behind which the variants of a slot differ, when it is one and the same for all of them: there one has to
 * look. Where they differ in several places, one of them is taken to be in plain view.
 */
function whereSlotShows(scene: Scene, slot: string): string | undefined {
  const { candidates } = scene.board.case;
  const places = new Set<string>();
  for (const [n, { machine: one }] of candidates.entries()) {
    for (const { machine: other } of candidates.slice(n + 1)) {
      if (one.choice.get(slot) === other.choice.get(slot)) continue;
      if ([...one.choice].some(([name, variant]) => name !== slot && other.choice.get(name) !== variant)) continue;
      for (const place of differing(one, other)) places.add(place);
      for (const place of differing(other, one)) places.add(place);
    }
  }
  const [only, ...others] = places;
  return others.length === 0 ? only : undefined;
}

/** Covers of the parts that one machine has and another has not; joints apart. */
function differing(one: Machine, other: Machine): readonly string[] {
  const ids = new Set(other.parts.map((part) => part.id));
  return one.parts.flatMap((part) =>
    part.joint === undefined && part.access !== undefined && !ids.has(part.id) ? [part.access] : [],
  );
}

/** Signs of the likeliest machine that are still a question, one entry an id. */
function signsOf(scene: Scene): SignRule[] {
  const signs = new Map<string, SignRule>();
  for (const sign of scene.machine.signs) if (scene.options.moot?.has(sign.id) !== true) signs.set(sign.id, sign);
  return [...signs.values()];
}

function answered(scene: Scene, sign: string, ...witnesses: readonly string[]): boolean {
  return witnesses.some((witness) => scene.state.signs.has(`${witness}:${sign}`));
}
