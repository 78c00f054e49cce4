import { matchesName, priceOf, type Shop } from "../remedy/index.ts";
import type { Machine } from "../sheet/index.ts";
import type { Board } from "./ground.ts";
import { minutesFor, NEEDS_NOTHING, type Offer } from "./offer.ts";
import { lookAt } from "./offer-looks.ts";
import type { PlanStep, Unanswered } from "./plan.ts";
import type { Scene, Suspect } from "./scene.ts";
import { type SetUp, setUpFor } from "./set-up.ts";

/** Belief from which a protector counts as found open. */
const FOUND_OPEN = 0.5;
/** Reserved word of the table: the protector was just weak. */
const ITSELF = "itself";

/**
 * Protectors that are open, or were replaced, and of which nobody knows yet why they opened. The job may not close
 * before that is answered: most come back otherwise.
 */
export function unansweredProtectors(scene: Scene): Unanswered[] {
  const { board, state } = scene;
  const open = new Map<string, number>();
  board.live.hypotheses.forEach((h, i) => {
    const machine = board.machineOf(i);
    for (const mode of board.case.hypotheses[h]?.modes ?? []) {
      const part = machine.parts[mode.part];
      if (mode.victim && part !== undefined) {
        open.set(part.id, (open.get(part.id) ?? 0) + (board.live.weights[i] as number));
      }
    }
  });
  for (const repair of state.repairs) if (isProtector(scene.machine, repair.on)) open.set(repair.on, 1);
  return [...open]
    .filter(([id, p]) => p >= FOUND_OPEN && !state.whys.has(id))
    .sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1))
    .map(([protector, p]) => ({
      protector,
      p,
      says: scene.machine.parts.find((part) => part.id === protector)?.says ?? protector,
      reasons: reasonsFor(board, scene.machine, protector),
    }));
}

function isProtector(machine: Machine, id: string): boolean {
  return (
    machine.whyOpen.has(id) ||
    machine.parts.find((part) => part.id === id)?.instance.modes.some((mode) => mode.victim) === true
  );
}

/**
 * Reasons with their chances. Where hypotheses tell a reason together with the open protector, they are believed; what
 * they leave over is shared by the sheet's table. Where there is no table, the sheet's links name the reasons.
 */
function reasonsFor(board: Board, machine: Machine, protector: string): Unanswered["reasons"] {
  const table = machine.whyOpen.get(protector) ?? linkTable(machine, protector);
  const believed = new Map<string, number>();
  let open = 0;
  board.live.hypotheses.forEach((h, i) => {
    const hypothesis = board.case.hypotheses[h];
    const parts = board.machineOf(i).parts;
    if (hypothesis?.modes.some((mode) => mode.victim && parts[mode.part]?.id === protector) !== true) return;
    const w = board.live.weights[i] as number;
    open += w;
    const reason = [...table.keys()].find((one) =>
      hypothesis.modes.some((mode) => !mode.victim && matchesName(one, mode.id)),
    );
    if (reason !== undefined) believed.set(reason, (believed.get(reason) ?? 0) + w);
  });
  const told = [...believed.values()].reduce((sum, w) => sum + w, 0);
  const untold = [...table].filter(([reason]) => !believed.has(reason)).reduce((sum, [, p]) => sum + p, 0);
  const rest = open > 0 && told > 0 ? Math.max(0, 1 - told / open) : 1;
  return [...table]
    .map(([reason, share]) => {
      const w = believed.get(reason);
      const p = w !== undefined ? w / open : told > 0 && untold > 0 ? (share / untold) * rest : share;
      return { reason, p, says: reasonSays(machine, reason) };
    })
    .sort((a, b) => b.p - a.p || (a.reason < b.reason ? -1 : 1));
}

function linkTable(machine: Machine, protector: string): ReadonlyMap<string, number> {
  const shares = new Map<string, number>();
  for (const link of machine.links) {
    const part = link.victim.split("/")[0] ?? "";
    if (!matchesName(part, protector)) continue;
    const cause = machine.causes.find((one) => one.id === link.cause);
    shares.set(link.cause, (cause?.share ?? 1) * link.p);
  }
  const sum = [...shares.values()].reduce((total, share) => total + share, 0);
  return new Map([...shares].map(([reason, share]) => [reason, share / sum]));
}

function reasonSays(machine: Machine, reason: string): string {
  if (reason === ITSELF) return "it was weak itself";
  const cause = machine.causes.find((one) => one.id === reason);
  if (cause !== undefined) return cause.says;
  const [part, mode] = reason.split("/");
  const found = machine.parts.find((one) => one.id === part);
  return found === undefined ? reason : `${found.says}${mode === undefined ? "" : ` ${mode.replaceAll("*", "")}`}`;
}

/** A look at why a protector opened, with what it saves. */
export interface WhyLook {
  readonly offer: Offer;
  readonly setUp: SetUp;
  readonly protector: Unanswered;
  readonly reason: string;
  readonly minutes: number;
  readonly cost: number;
  /** Money it saves on average: returns that will not happen. */
  readonly saves: number;
}

/** Ways to find out why a protector opened: a look or a measurement where the sheet has one, else a question. */
export function whyLooks(scene: Scene, unanswered: readonly Unanswered[], shop: Shop): WhyLook[] {
  return unanswered.flatMap((protector) =>
    protector.reasons
      .filter(({ reason }) => reason !== ITSELF)
      .flatMap(({ reason, says, p }) => {
        const offer = offerFor(scene, protector, reason, says);
        const setUp = setUpFor(offer.needs, scene.state, scene.board.groups, shop);
        if (setUp === undefined) return [];
        const own = offer.minutes + minutesFor(offer.questions);
        return [
          {
            offer,
            setUp,
            protector,
            reason,
            minutes: setUp.minutes + own,
            cost: priceOf(setUp.minutes + setUp.closeMinutes + own, shop),
            saves: protector.p * p * shop.comeback,
          },
        ];
      }),
  );
}

const WHY = "why:";

/** Protector and reason that a step asks about; none for any other step. */
export function whyOf({
  id,
}: Pick<PlanStep, "id">): { readonly protector: string; readonly reason: string } | undefined {
  if (!id.startsWith(WHY)) return undefined;
  const [protector = "", ...reason] = id.slice(WHY.length).split("/");
  return { protector, reason: reason.join("/") };
}

function offerFor(scene: Scene, protector: Unanswered, reason: string, says: string): Offer {
  const id = `${WHY}${protector.protector}/${reason}`;
  const cause = scene.machine.causes.find((one) => one.id === reason);
  const partPattern = reason.split("/")[0] ?? reason;
  const part = scene.machine.parts.find((one) => one.id === partPattern);
  const suspect: Suspect | undefined =
    cause !== undefined
      ? { id: cause.id, p: 0, fitful: 0, leaks: 0, cause, visible: true, hazards: [] }
      : part !== undefined
        ? { id: part.id, p: 0, fitful: 0, leaks: 0, part, visible: true, hazards: part.instance.hazards }
        : undefined;
  const seen = scene.state.foundBad.has(suspect?.id ?? "");
  const title = seen
    ? `Write down why it opened (${protector.says}): ${says}`
    : `Why did it open (${protector.says})? Look for: ${says}`;
  if (suspect === undefined || seen) {
    return {
      id,
      do: "why",
      says: title,
      needs: NEEDS_NOTHING,
      minutes: scene.shop.minutes.ask,
      questions: [],
      cautions: [],
      sheetCautions: [],
    };
  }
  const access = suspect.part?.access ?? suspect.cause?.look?.access;
  return {
    id,
    do: "why",
    says: title,
    needs: { energy: "plug out", access: access === undefined ? [] : [access], pulled: [] },
    minutes: 0,
    questions: [lookAt(scene, suspect)],
    cautions: ["isolate"],
    sheetCautions: [...(suspect.cause?.look?.cautions ?? []), ...suspect.hazards],
  };
}
