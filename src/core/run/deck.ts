import { type WrittenDeck, type WrittenElement, writeDeck } from "../circuit/index.ts";
import type { Effect } from "../fault/index.ts";
import type { Machine, MachineElement } from "../sheet/index.ts";
import { type Change, changesOf, isSource, noChange } from "./network.ts";
import type { Member } from "./picture.ts";

/**
 * One machine, with one fault, frozen in one member of a picture, as a SPICE deck: what is open is left out, what a
 * fault adds in series or parallel is a resistor of its own. A reactance is written as the inductor (or capacitor) that
 * has it at the supply's frequency. Node 0 is the far end of the first mains source.
 */
export function deckOf(
  machine: Machine,
  effects: readonly Effect[],
  member: Member,
  title = machine.title,
): WrittenDeck {
  const changes = changesOf(effects);
  const elements = machine.elements.flatMap((element, index) => {
    const state = element.set < 0 ? 0 : member.states[element.set];
    return cards(machine, element, element.values[state].nominal, changes.get(index) ?? noChange);
  });
  const [mains] = machine.mains;
  const ground = mains === undefined ? undefined : machine.nodes[machine.elements[mains].b];
  return writeDeck(title, elements, ground);
}

function cards(machine: Machine, element: MachineElement, rated: number, change: Readonly<Change>): WrittenElement[] {
  const { id, what, set } = element;
  const a = machine.nodes[element.a];
  const b = machine.nodes[element.b];
  if (isSource(what)) {
    if (!Number.isFinite(rated) || change.open) return [];
    const volts = change.short ? 0 : rated * change.factor;
    const source = { name: id, kind: "V", a, b } as const;
    if (what === "V=") return [{ ...source, value: volts, ac: { magnitude: 0, degrees: 0 } }];
    return [{ ...source, value: 0, ac: { magnitude: volts, degrees: element.degrees ?? 0 } }];
  }
  const written: WrittenElement[] = [];
  const closed = Math.min(...element.values.map(({ nominal }) => nominal));
  const welded = change.short && what === "switch" && Number.isFinite(closed);
  const value = (welded ? closed : rated) * change.factor;
  const isOpen = (change.open && !welded) || value === Number.POSITIVE_INFINITY;
  if (change.short && !welded) written.push({ name: `${id}.short`, kind: "R", a, b, value: 0 });
  else if (!isOpen) {
    const inner = change.seriesOhms > 0 ? `${id}.inner` : b;
    written.push({ name: id, ...passive(what, value, machine.supply.hertz), a, b: inner });
    if (inner !== b) written.push({ name: `${id}.series`, kind: "R", a: inner, b, value: change.seriesOhms });
  } else if (set >= 0 || change.open) {
    written.push({ name: id, kind: "R", a, b, value: Number.POSITIVE_INFINITY });
  }
  if (change.parallelSiemens > 0) {
    written.push({ name: `${id}.parallel`, kind: "R", a, b, value: 1 / change.parallelSiemens });
  }
  return written;
}

function passive(what: MachineElement["what"], value: number, hertz: number): Pick<WrittenElement, "kind" | "value"> {
  const omega = 2 * Math.PI * hertz;
  if (what === "C" || what === "L") return { kind: what, value };
  if (what === "X") return value < 0 ? { kind: "C", value: -1 / (omega * value) } : { kind: "L", value: value / omega };
  return { kind: "R", value };
}
