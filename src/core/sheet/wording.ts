import type { Draft, DraftPart, DraftPin, DraftPlug } from "./draft.ts";
import type { Wiring } from "./wiring.ts";

/** Says places of a machine as a technician does: connector, pin, colour, tab; never the inner name of a wire. */
export class Wording {
  readonly #wiring: Wiring;
  /** Wire → what it looks like. */
  readonly #looks = new Map<string, string>();
  readonly #assemblySays: ReadonlyMap<string, string>;
  readonly #partSays = new Map<string, string>();

  constructor(draft: Draft, wiring: Wiring, assemblySays: ReadonlyMap<string, string>) {
    this.#wiring = wiring;
    this.#assemblySays = assemblySays;
    for (const [wire, look] of draft.wireLooks) this.#looks.set(wiring.wire(wire), look);
    for (const plug of draft.plugs.values()) {
      for (const { wire, colour } of plug.pins.values()) {
        if (colour !== undefined) this.#looks.set(wiring.wire(wire), colour);
      }
    }
    const count = new Map<string, number>();
    for (const { says } of draft.parts.values()) count.set(says, (count.get(says) ?? 0) + 1);
    for (const { id, says } of draft.parts.values()) {
      this.#partSays.set(id, (count.get(says) ?? 0) > 1 && !says.includes(id) ? `${says} (${id})` : says);
    }
  }

  /** "heater"; "relay (heat-relay-2)" where several parts are called alike. */
  part(id: string): string {
    return this.#partSays.get(id) ?? id;
  }

  /** "heater, tab s1 (red wire)". */
  tab(part: DraftPart, pin: string): string {
    const tab = part.tabs.get(pin) ?? `terminal ${pin}`;
    const hidden = part.of !== undefined && part.access === undefined;
    const look = hidden ? undefined : this.#looks.get(this.#wiring.wire(part.pins.get(pin) ?? ""));
    const inside = hidden ? ` on the ${this.owner(part.of ?? "")}` : "";
    return `${this.part(part.id)}${inside}, ${tab}${look === undefined ? "" : ` (${colourOf(look)})`}`;
  }

  /** "connector X3, pin 1 (red)". */
  pin(plug: DraftPlug, name: string, pin: DraftPin): string {
    const connector = plug.says ?? `connector ${plug.id}`;
    return `${connector}, ${pin.says ?? `pin ${name}`}${pin.colour === undefined ? "" : ` (${pin.colour})`}`;
  }

  /** "connector X3, pin 1 (red), on the side of the control". */
  pinInside(plug: DraftPlug, name: string, pin: DraftPin): string {
    if (plug.insideSays !== undefined) return `${plug.insideSays}, ${pin.says ?? `pin ${name}`}`;
    return `${this.pin(plug, name, pin)}, on the side of the ${this.owner(plug.of)}`;
  }

  jointOfPart(part: DraftPart, pin: string): string {
    return `bad connection at the ${this.tab(part, pin)}`;
  }

  jointOfPlug(plug: DraftPlug, name: string, pin: DraftPin): string {
    return `bad connection in ${plug.says === undefined ? "" : "the "}${this.pin(plug, name, pin)}`;
  }

  owner(id: string): string {
    return this.#assemblySays.get(id) ?? this.#partSays.get(id) ?? id;
  }
}

/** "red" becomes "red wire"; "white sleeve" and "bare metal" stay. */
function colourOf(look: string): string {
  return /\s/.test(look) ? look : `${look} wire`;
}
