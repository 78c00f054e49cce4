import type { JobEvent } from "./job.ts";
import { namesOf } from "./machine-names.ts";
import type { WorkedJob } from "./work-out.ts";

/** Something that must be back in its place before the machine is left. */
export interface PutBackItem {
  readonly says: string;
  /** What writes it down: an event `closed` of a cover, `ticked` of all else, by this id. */
  readonly kind: "cover" | "thing" | "connector" | "wires";
  readonly id: string;
  /** The cover it belongs to, as it is called; none for a connector or a wire. */
  readonly cover?: string;
  readonly isBack: boolean;
  /** The event that told that it is back. */
  readonly event?: string;
}

/** A tick for everything on the list. */
export const ALL = "all";

/**
 * What was opened, taken off or pulled on a job, and what of it was put back. The list makes itself: a cover that is
 * opened puts itself and all that it disturbs on it, a connector that was off for a reading puts itself there; opened or
 * pulled again, it is owed again.
 */
export function putBackOf({ case: { candidates } }: WorkedJob, events: readonly JobEvent[]): readonly PutBackItem[] {
  const names = namesOf(candidates.map(({ machine }) => machine));
  const covers = new Map(candidates.flatMap(({ machine }) => machine.access).map((cover) => [cover.id, cover]));
  const items = new Map<string, PutBackItem>();
  const idIn = (book: "access" | "putsBack", name: string): string => {
    const meaning = names[book].mean(name);
    return meaning.is === "one" ? meaning.id : name;
  };
  const open = (id: string): void => {
    const cover = covers.get(id);
    if (cover === undefined) return;
    if (cover.after !== undefined && items.get(`cover ${cover.after}`)?.isBack !== false) open(cover.after);
    items.set(`cover ${id}`, { says: `${cover.says} closed`, kind: "cover", id, cover: cover.says, isBack: false });
    for (const item of cover.putsBack)
      items.set(item, { says: item, kind: "thing", id: item, cover: cover.says, isBack: false });
  };
  const tick = (key: string, event: string): void => {
    const item = items.get(key);
    if (item !== undefined && !item.isBack) items.set(key, { ...item, isBack: true, event });
  };
  for (const event of events) {
    if (event.kind === "opened") for (const name of event.access) open(idIn("access", name));
    if (event.kind === "closed") for (const name of event.access) tick(`cover ${idIn("access", name)}`, event.id);
    if (event.kind === "measured" || event.kind === "counted") {
      for (const id of event.set.pulled)
        items.set(id, { says: `connector ${id} pushed home`, kind: "connector", id, isBack: false });
      for (const id of event.set.freed)
        items.set(id, { says: `wires back on ${id}`, kind: "wires", id, isBack: false });
    }
    if (event.kind !== "ticked") continue;
    for (const name of event.items) {
      if (name === ALL) for (const key of items.keys()) tick(key, event.id);
      else tick(idIn("putsBack", name), event.id);
    }
  }
  return [...items.values()];
}
