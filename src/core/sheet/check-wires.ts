import type { Cursor } from "../part/index.ts";
import type { Assembled } from "./assemble.ts";
import type { Sheet } from "./sheet.ts";

/** Everything a wiring can get wrong that one combination shows: loose ends, loops past a plug, parts on no supply. */
export function checkWires(sheet: Sheet, assembled: Assembled, choice: ReadonlyMap<string, string>): void {
  const ends = endsOfWires(assembled);
  checkOneEnd(assembled, ends);
  checkEdges(sheet, assembled, choice, ends);
  checkTwoPlugs(assembled);
  checkFloating(assembled);
}

interface End {
  readonly says: string;
  readonly cursor: Cursor;
  /** On the house's side: not the sheet's business. */
  readonly house: boolean;
}

/** Node → what ends there: pins of parts, and both sides of plug pins. */
function endsOfWires({ draft, wiring }: Assembled): ReadonlyMap<number, readonly End[]> {
  const ends = new Map<number, End[]>();
  const add = (node: number, end: End): void => {
    const there = ends.get(node);
    if (there === undefined) ends.set(node, [end]);
    else there.push(end);
  };
  for (const part of draft.parts.values()) {
    for (const [pin, wire] of part.pins) {
      const cursor = part.cursor.field(pin) ?? part.cursor;
      add(wiring.at(part, wire), { says: `${part.id}.${pin}`, cursor, house: part.of === "house" });
    }
  }
  for (const plug of draft.plugs.values()) {
    for (const [name, pin] of plug.pins) {
      const house = plug.of === "house";
      add(wiring.outside(pin.wire), { says: `${plug.id}.${name}`, cursor: pin.cursor, house });
      add(wiring.inside(pin.inside, plug.of), { says: `${plug.id}.${name} inside`, cursor: pin.cursor, house });
    }
  }
  return ends;
}

function checkOneEnd({ wiring }: Assembled, ends: ReadonlyMap<number, readonly End[]>): void {
  for (const [node, [end, ...others]] of ends) {
    if (end === undefined || others.length > 0 || end.house) continue;
    const wire = wiring.names[node] ?? "";
    const hint = "Join it to something, or say same-wire in the variant in which nothing sits there.";
    end.cursor.warn("sheet.wire.one-end", `a wire with two ends`, hint, `wire ${wire} that ends only at ${end.says}`);
  }
}

/** Slots in series meet at their edges: whatever is chosen, each edge is joined to something or is one with another. */
function checkEdges(
  sheet: Sheet,
  { wiring, issues }: Assembled,
  choice: ReadonlyMap<string, string>,
  ends: ReadonlyMap<number, readonly End[]>,
): void {
  for (const slot of sheet.slots.values()) {
    const variant = slot.variants.get(choice.get(slot.id) ?? "");
    if (variant === undefined) continue;
    const roots = slot.edge.map((wire) => wiring.wire(wire));
    slot.edge.forEach((wire, index) => {
      const same = roots.some((root, other) => other !== index && root === roots[index]);
      const node = wiring.find(wiring.wire(wire));
      const joined = node === undefined ? 0 : (ends.get(node)?.length ?? 0);
      if (same || joined >= 2) return;
      issues.add({
        code: "sheet.edge.open",
        severity: "warning",
        ...(sheet.file === undefined ? {} : { file: sheet.file }),
        line: variant.line,
        at: ["slots", slot.id, "variants", variant.id],
        found: `edge ${wire} joined to nothing`,
        expected: "a part at it, or same-wire with another edge",
      });
    });
  }
}

/** A wire that comes out of two plugs of one owner would be one wire on both sides: two names are needed. */
function checkTwoPlugs({ draft, wiring }: Assembled): void {
  const seen = new Map<string, string>();
  for (const plug of draft.plugs.values()) {
    for (const [name, pin] of plug.pins) {
      const key = `${plug.of}\n${wiring.wire(pin.wire)}`;
      const before = seen.get(key);
      if (before === undefined) seen.set(key, `${plug.id}.${name}`);
      else {
        const hint =
          "Give it a second name outside and say from which inside wire it comes: heat-n blue from heat-n-in.";
        const found = `wire ${pin.wire} at ${before} and at ${plug.id}.${name}, both of ${plug.of}`;
        pin.cursor.warn("sheet.plug.same-wire", "a wire that leaves its owner by one plug", hint, found);
      }
    }
  }
}

/** Parts that no source feeds, even with every contact closed. */
function checkFloating({ machine, draft }: Assembled): void {
  const parent = machine.nodes.map((_, node) => node);
  const find = (node: number): number => {
    let root = node;
    for (let up = parent[root] ?? root; up !== root; up = parent[root] ?? root) root = up;
    parent[node] = root;
    return root;
  };
  for (const { what, a, b } of machine.elements) if (what !== "leak") parent[find(a)] = find(b);
  const fed = new Set(machine.mains.map((index) => find(machine.elements[index]?.a ?? -1)));
  for (const part of machine.parts) {
    const cursor = draft.parts.get(part.id)?.cursor;
    if (cursor === undefined || part.elements.length === 0) continue;
    const nodes = part.elements.map((index) => machine.elements[index]?.a ?? -1);
    if (nodes.some((node) => fed.has(find(node)))) continue;
    cursor.warn(
      "sheet.part.floating",
      "a part that some source feeds",
      "Check the wires at its pins.",
      `${part.id} on wires of its own`,
    );
  }
}
