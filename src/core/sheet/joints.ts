import { didYouMean, instantiate, type KindInstance } from "../part/index.ts";
import type { Source } from "../quantity/index.ts";
import type { Draft, JointRow } from "./draft.ts";
import type { Library } from "./house.ts";
import type { Part } from "./machine.ts";

/** Kinds of joints by their class, `joint-<class>` in the library, instantiated once a machine. */
export class JointKinds {
  readonly #library: Library;
  readonly #draft: Draft;
  readonly #known = new Map<string, KindInstance | undefined>();

  constructor(library: Library, draft: Draft) {
    this.#library = library;
    this.#draft = draft;
  }

  /** The joint kind of a class; an issue (once) when the library has none, or it is not a joint. */
  of(
    className: string,
    neededBy: { refuse: (code: string, expected: string, hint?: string) => undefined },
  ): KindInstance | undefined {
    if (this.#known.has(className)) return this.#known.get(className);
    const kind = this.#library.kinds.get(`joint-${className}`);
    let instance: KindInstance | undefined;
    if (kind === undefined) {
      const classes = [...this.#library.kinds.keys()].filter((id) => id.startsWith("joint-")).map((id) => id.slice(6));
      neededBy.refuse(
        "sheet.joint.unknown",
        `a joint class of the library, not ${className}`,
        didYouMean(className, classes),
      );
    } else {
      instance = this.#draft.issues.take(instantiate(kind, new Map(), { at: ["kinds", kind.id] }));
      if (instance !== undefined && !(instance.pins.has("a") && instance.pins.has("b") && instance.pins.size === 2)) {
        neededBy.refuse("sheet.joint.pins", `a joint kind with the pins a and b (joint-${className})`);
        instance = undefined;
      }
    }
    this.#known.set(className, instance);
    return instance;
  }
}

/**
 * Gives the joints of each row the row's one share, parted as their classes' own shares stand to one another.
 * A joint belongs to the first row that names it.
 */
export function shareJointRows(parts: Part[], rows: readonly JointRow[]): void {
  const taken = new Set<number>();
  for (const row of rows) {
    const members = new Set<number>();
    for (const at of row.at) {
      const name = at.word("a part, a plug, or one of their pins");
      if (name === undefined) continue;
      const found = jointsNamed(parts, name);
      for (const index of found) if (!taken.has(index)) members.add(index);
    }
    const total = [...members].reduce((sum, index) => sum + (parts[index]?.share ?? 0), 0);
    for (const index of members) {
      const part = parts[index];
      if (part === undefined) continue;
      const share = total > 0 ? (row.share * part.share) / total : row.share / members.size;
      parts[index] = { ...part, share, ...sourceOf(row.source ?? part.shareSource) };
      taken.add(index);
    }
  }
}

function sourceOf(source: Source | undefined): { readonly shareSource?: Source } {
  return source === undefined ? {} : { shareSource: source };
}

/** `heater` all its joints, `heater.s1` one; `X3` and `X3.1` likewise; a trailing `*` matches any ending. */
export function jointsNamed(parts: readonly Part[], name: string): readonly number[] {
  const found: number[] = [];
  const start = name.endsWith("*") ? name.slice(0, -1) : undefined;
  parts.forEach(({ joint }, index) => {
    if (joint === undefined) return;
    const owner = joint.plug ?? joint.part ?? "";
    const pin = `${owner}.${joint.pin ?? ""}`;
    if (start === undefined ? owner === name || pin === name : owner.startsWith(start) || pin.startsWith(start)) {
      found.push(index);
    }
  });
  return found;
}
