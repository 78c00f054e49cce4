import { type Mode, modesOf } from "../fault/index.ts";
import { type Atom, atomsOf, MAINS_PLUG, Predictor, type Probe, type ProbeState, probeOf } from "../predict/index.ts";
import type { Machine, Part } from "../sheet/index.ts";

/** How far an insulation test at the plug's pins, line and neutral joined against earth, reaches into a machine. */
export interface InsulationCoverage {
  /** Parts whose leak to earth it would show, as they are called. */
  readonly reached: readonly string[];
  readonly missed: readonly Missed[];
}

/** A part whose leak to earth the test at the plug would not show. */
export interface Missed {
  readonly part: string;
  readonly says: string;
  /** Some of its places are reached, not all. */
  readonly isPartly: boolean;
  /** Taken together they reach every place of it that the plug does not. */
  readonly by: readonly WayToReach[];
}

/** How to reach it all the same, the cheapest way that the circuit shows to work. */
export type WayToReach =
  /** The same test with something held by hand: a door shut, a key pressed. */
  | { readonly is: "hands"; readonly hands: readonly string[] }
  /** At a connector pulled, or at the part's own terminals, joined, against earth. */
  | { readonly is: "terminals"; readonly points: readonly string[]; readonly pulled?: string; readonly access?: string }
  /** By no insulation test that this sheet can name: the current to earth with the part running. */
  | { readonly is: "running" };

/** A place reached shows its leak: at least a tenth less than the good machine. */
const SHOWN = 0.9;
/** An insulation tester loads nothing: any value does. */
const INPUT_OHMS = 1e7;
/** A point so near to the plug's earth pin is earth, ohms. */
const EARTH = 10;

const AT_REST = { kind: "dead", pulled: [], freed: [], hands: new Map<string, number>() } as const satisfies ProbeState;

/**
 * What an insulation test at the plug reaches, worked out from the circuit: every leak to earth that the sheet knows is put
 * in, one at a time, and the test is made. Switched on both poles with its relay open, a heater is not reached.
 *
 * @returns `undefined` where the plug has no earth: there is nothing to test against at its pins
 */
export function insulationCoverage(machine: Machine): InsulationCoverage | undefined {
  const pins = ["L", "L1", "L2", "L3", "N"].map((pin) => `${MAINS_PLUG}.${pin}`);
  const live = pins.filter((id) => machine.points.some((point) => point.id === id));
  const earth = `${MAINS_PLUG}.PE`;
  if (live.length === 0 || !machine.points.some(({ id }) => id === earth)) return undefined;
  const modes: readonly Mode[] = modesOf(machine);
  const tester = new Tester(machine, modes, earth);
  const leaks = atomsOf(modes).filter((atom) => tester.isToEarth(atom));
  const byPart = new Map<number, Atom[]>();
  for (const atom of leaks) byPart.set(atom.mode.part, [...(byPart.get(atom.mode.part) ?? []), atom]);

  const reached: string[] = [];
  const missed: Missed[] = [];
  for (const [index, atoms] of byPart) {
    const part = machine.parts[index] as Part;
    const hidden = atoms.filter((atom) => !tester.shows(tester.insulation(live, AT_REST), atom));
    if (hidden.length === 0) reached.push(part.says);
    else {
      const isPartly = hidden.length < atoms.length;
      missed.push({ part: part.id, says: part.says, isPartly, by: waysTo(machine, part, hidden, live, tester) });
    }
  }
  return { reached, missed };
}

/** Makes insulation tests on a machine. */
class Tester {
  readonly #predictor: Predictor;
  readonly #machine: Machine;
  readonly #earth: string;
  readonly #earthNodes: ReadonlySet<number>;

  constructor(machine: Machine, modes: readonly Mode[], earth: string) {
    this.#machine = machine;
    this.#earth = earth;
    this.#predictor = new Predictor(machine, modes);
    const isEarth = (id: string): boolean =>
      id === earth ||
      this.#predictor.value(probeOf({ quantity: "ohms", from: id, to: earth, state: AT_REST }), INPUT_OHMS, []) < EARTH;
    this.#earthNodes = new Set(machine.points.filter(({ id }) => isEarth(id)).map(({ node }) => node));
  }

  isToEarth({ mode, severity }: Atom): boolean {
    return (
      mode.part >= 0 &&
      mode.severities[severity].effects.some((effect) => {
        if (effect.does !== "leak") return false;
        const { a, b } = this.#machine.elements[effect.element];
        return this.#earthNodes.has(a) !== this.#earthNodes.has(b);
      })
    );
  }

  insulation([from, ...joinedWith]: readonly string[], state: ProbeState): Probe {
    return probeOf({ quantity: "insulation ohms", from: from as string, joinedWith, to: this.#earth, state });
  }

  shows(probe: Probe, leak: Atom): boolean {
    const good = this.#predictor.value(probe, INPUT_OHMS, []);
    const bad = this.#predictor.value(probe, INPUT_OHMS, [leak]);
    return bad < SHOWN * good;
  }

  /** Is the point itself earth? An insulation test from there would be a short. */
  isEarth(id: string): boolean {
    return this.#machine.points.some((point) => point.id === id && this.#earthNodes.has(point.node));
  }
}

/** The fewest ways that come to hand: each hidden place takes the first way that shows it. */
function waysTo(
  machine: Machine,
  part: Part,
  hidden: readonly Atom[],
  live: readonly string[],
  tester: Tester,
): readonly WayToReach[] {
  const ways = [...waysAt(machine, part, live, tester)];
  const taken = new Set<WayToReach>();
  let isBehindAll = false;
  for (const atom of hidden) {
    const shown = ({ probe }: (typeof ways)[number]): boolean => tester.shows(probe, atom);
    if (ways.some((way) => taken.has(way.way) && shown(way))) continue;
    const first = ways.find(shown);
    if (first === undefined) isBehindAll = true;
    else taken.add(first.way);
  }
  return [...taken, ...(isBehindAll ? [{ is: "running" } as const] : [])];
}

/** Every way there is, cheapest first: something held by hand, a connector pulled, the part's own terminals. */
function* waysAt(
  machine: Machine,
  part: Part,
  live: readonly string[],
  tester: Tester,
): Generator<{ readonly way: WayToReach; readonly probe: Probe }> {
  for (const { id } of machine.variables.filter(({ role }) => role === "input")) {
    yield {
      way: { is: "hands", hands: [id] },
      probe: tester.insulation(live, { ...AT_REST, hands: new Map([[id, 1]]) }),
    };
  }
  for (const plug of machine.plugs.filter(({ id }) => id !== MAINS_PLUG)) {
    const access = plug.access === undefined ? {} : { access: coverSays(machine, plug.access) };
    for (const { point } of plug.pins) {
      const { id } = machine.points[point];
      if (tester.isEarth(id)) continue;
      yield {
        way: { is: "terminals", points: [id], pulled: plug.id, ...access },
        probe: tester.insulation([id], { ...AT_REST, pulled: [plug.id] }),
      };
    }
  }
  const points = [...part.pins.keys()]
    .map((pin) => `${part.id}.${pin}`)
    .filter((id) => machine.points.some((point) => point.id === id) && !tester.isEarth(id));
  if (points.length === 0) return;
  const access = part.access === undefined ? {} : { access: coverSays(machine, part.access) };
  yield { way: { is: "terminals", points, ...access }, probe: tester.insulation(points, AT_REST) };
}

function coverSays(machine: Machine, id: string): string {
  return machine.access.find((cover) => cover.id === id)?.says ?? id;
}
