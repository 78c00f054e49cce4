import { priceOf, type Shop } from "../remedy/index.ts";
import type { Access } from "../sheet/index.ts";
import type { Energy } from "./plan.ts";
import type { WorkState } from "./work-state.ts";

/** One act of getting ready, with the minutes it takes now (what it costs later, to close, is in `closeMinutes`). */
export type SetUpAct =
  | {
      readonly do: "open";
      readonly access: string;
      readonly says: string;
      readonly minutes: number;
      readonly tools: readonly string[];
      readonly putsBack: readonly string[];
      readonly needs: readonly string[];
    }
  | { readonly do: "close"; readonly access: string; readonly says: string; readonly minutes: number }
  | { readonly do: "move"; readonly position: string; readonly minutes: number }
  | {
      readonly do: "plug out" | "prove dead" | "plug in through an RCD lead" | "clip leads on";
      readonly minutes: number;
    }
  | { readonly do: "take"; readonly instrument: string; readonly minutes: number }
  | { readonly do: "pull"; readonly plug: string; readonly minutes: number };

/** What a step needs before its first question. */
export interface Needs {
  readonly energy: Energy;
  /** Access groups that must be open, prerequisites apart. */
  readonly access: readonly string[];
  /** `handheld-6000/ohms` */
  readonly instrument?: string;
  readonly instrumentSays?: string;
  readonly pulled: readonly string[];
}

export interface SetUp {
  readonly acts: readonly SetUpAct[];
  /** Minutes now, and minutes that closing what was opened will take at the end. */
  readonly minutes: number;
  readonly closeMinutes: number;
}

/** Access groups by id, over all candidate machines. */
export type AccessGroups = ReadonlyMap<string, Access>;

/** A group with all that must be open before it, outermost first. */
export function accessChain(id: string, groups: AccessGroups): readonly Access[] {
  const chain: Access[] = [];
  for (let at: string | undefined = id; at !== undefined && chain.length < 20; ) {
    const group: Access | undefined = groups.get(at);
    if (group === undefined || chain.includes(group)) break;
    chain.unshift(group);
    at = group.after;
  }
  return chain;
}

/**
 * What it takes to be ready for a step from where the work stands: covers, position, plug, proof of being dead, instrument.
 * Covers go back on before anything is energised; a machine that may not run open is closed first.
 *
 * @returns undefined when the step cannot be set up (its own cover must be shut to run)
 */
export function setUpFor(needs: Needs, state: WorkState, groups: AccessGroups, shop: Shop): SetUp | undefined {
  const acts: SetUpAct[] = [];
  const wanted = needs.access.flatMap((id) => accessChain(id, groups));
  const live = needs.energy === "closed" || needs.energy === "clipped" || needs.energy === "handheld";
  let closeMinutes = 0;

  if (live && wanted.some((group) => group.mayRun === "no")) return undefined;
  const toOpen = wanted.filter((group, n) => !state.open.has(group.id) && wanted.indexOf(group) === n);
  const dead = needs.energy === "plug out" || toOpen.length > 0 || needs.energy === "clipped";

  if (dead && state.energy === "live") acts.push({ do: "plug out", minutes: 0.3 });
  if (live) {
    for (const id of state.open) {
      const group = groups.get(id);
      if (group === undefined || group.mayRun === "yes") continue;
      if (wanted.includes(group)) continue;
      acts.push({ do: "close", access: id, says: group.says, minutes: group.closeMinutes });
      closeMinutes += group.openMinutes;
    }
  }
  let position = state.position;
  for (const group of toOpen) {
    if (position !== undefined && group.position !== position) {
      acts.push({ do: "move", position: group.position, minutes: shop.minutes.changePosition });
    }
    position = group.position;
    acts.push({
      do: "open",
      access: group.id,
      says: group.says,
      minutes: group.openMinutes,
      tools: group.tools,
      putsBack: group.putsBack,
      needs: group.needs,
    });
    closeMinutes += group.closeMinutes;
  }
  // A machine that stands open is touched by whatever is done at it.
  const touchesInside = wanted.length > 0 || state.open.size > 0;
  if (dead && touchesInside && !(state.provedDead && state.energy === "plug out")) {
    acts.push({ do: "prove dead", minutes: shop.minutes.proveDead });
  }
  for (const plug of needs.pulled) {
    if (!state.pulled.has(plug)) acts.push({ do: "pull", plug, minutes: shop.minutes.pullConnector });
  }
  if (needs.instrument !== undefined && needs.instrument !== state.instrument) {
    acts.push({
      do: "take",
      instrument: needs.instrumentSays ?? needs.instrument,
      minutes: shop.minutes.changeInstrument,
    });
  }
  if (needs.energy === "clipped") acts.push({ do: "clip leads on", minutes: shop.minutes.clip });
  if (live && (state.energy !== "live" || acts.some((act) => act.do === "plug out"))) {
    acts.push({ do: "plug in through an RCD lead", minutes: shop.minutes.energise });
  }
  return { acts, minutes: acts.reduce((sum, act) => sum + act.minutes, 0), closeMinutes };
}

/** Money of plug out and proof of being dead within a set-up: once done, it holds for every dead step that follows. */
export function readyCost(setUp: SetUp, shop: Shop): number {
  const acts = setUp.acts.filter((act) => act.do === "plug out" || act.do === "prove dead");
  return priceOf(
    acts.reduce((sum, act) => sum + act.minutes, 0),
    shop,
  );
}
