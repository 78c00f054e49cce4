import type { Effect } from "../fault/index.ts";
import type { Machine } from "../sheet/index.ts";
import type { DeadBench, DeadState } from "./dead.ts";
import type { Run } from "./picture.ts";
import type { Runner } from "./runner.ts";

/** A live or dead reading moved by more than this, and by this share, can be told from a good one (common practice, no source). */
const notable = { volts: 1, watts: 2, ohms: 0.2, share: 0.02 } as const;

/** Looks for anything by which a fault could be told from the healthy machine, cheapest first. */
export class Observables {
  readonly #runner: Runner;
  readonly #bench: DeadBench;
  readonly #states: readonly DeadState[];
  readonly #pairs: readonly (readonly [number, number])[];
  readonly #healthyOhms: readonly Float64Array[];

  constructor(runner: Runner, bench: DeadBench) {
    this.#runner = runner;
    this.#bench = bench;
    const { machine } = runner;
    const asTheyAre = new Map<string, number>();
    const inputs = machine.variables.filter(({ role }) => role === "input");
    const letGo = new Map(inputs.map(({ id }) => [id, 0]));
    this.#states = [
      { pulled: [], freed: [], hands: asTheyAre },
      { pulled: machine.plugs.map(({ id }) => id), freed: [], hands: asTheyAre },
      { pulled: machine.plugs.map(({ id }) => id), freed: [], hands: letGo },
    ];
    this.#pairs = pairsOf(machine);
    this.#healthyOhms = this.#states.map((state) => this.#ohms([], state));
  }

  /** Does the fault move a state, a picture or a reading? */
  shows(effects: readonly Effect[]): boolean {
    const run = this.#runner.run(effects);
    if (!sameRun(run, this.#runner.healthy)) return true;
    return this.#readsLive(effects, run) || this.#readsDead(effects);
  }

  #readsLive(effects: readonly Effect[], run: Run): boolean {
    const nodes = this.#runner.machine.points.map(({ node }) => node);
    for (const [key, { members }] of run.pictures) {
      const good = this.#runner.healthy.pictures.get(key)?.members[0];
      if (good === undefined) continue;
      const healthy = this.#runner.restore([], good, key);
      const volts = nodes.map((node) => healthy.live.between(node, nodes[0]));
      const watts = healthy.plugWatts();
      const faulty = this.#runner.restore(effects, members[0], key);
      if (differs(faulty.plugWatts(), watts, notable.watts)) return true;
      if (nodes.some((node, at) => differs(faulty.live.between(node, nodes[0]), volts[at], notable.volts))) return true;
    }
    return false;
  }

  #readsDead(effects: readonly Effect[]): boolean {
    return this.#states.some((state, at) => {
      const faulty = this.#ohms(effects, state);
      return faulty.some((ohms, pair) => differs(ohms, this.#healthyOhms[at][pair], notable.ohms));
    });
  }

  #ohms(effects: readonly Effect[], state: DeadState): Float64Array {
    const ohmmeter = this.#bench.prepare(effects, state);
    return Float64Array.from(this.#pairs, ([one, other]) => ohmmeter.ohms(one, other));
  }
}

/** Pairs worth an ohms reading: the pins of one part, the pins of one plug, and every point against the mains plug. */
function pairsOf(machine: Machine): (readonly [number, number])[] {
  const mains = machine.points.filter(({ plug }) => plug === "plug").map(({ node }) => node);
  const groups = [
    ...machine.parts.map(({ pins }) => [...pins.values()]),
    ...machine.plugs.map(({ pins }) => pins.map(({ point }) => machine.points[point].node)),
  ];
  const within = groups.flatMap((nodes) =>
    nodes.flatMap((one, at) => nodes.slice(at + 1).map((other) => [one, other] as const)),
  );
  const toMains = machine.points.flatMap(({ node }) => mains.map((pin) => [node, pin] as const));
  return [...within, ...toMains];
}

function differs(value: number, good: number, least: number): boolean {
  if (value === good) return false;
  if (!Number.isFinite(value) || !Number.isFinite(good)) return true;
  return Math.abs(value - good) > Math.max(least, notable.share * Math.abs(good));
}

function sameRun(one: Run, other: Run): boolean {
  if (one.said.length !== other.said.length || one.reached.length !== other.reached.length) return false;
  if (one.said.some((said, at) => said.says !== other.said[at].says)) return false;
  for (const [key, { members }] of one.pictures) {
    const others = other.pictures.get(key)?.members ?? [];
    if (members.length !== others.length) return false;
    for (const [at, member] of members.entries()) {
      const { states, variables } = others[at];
      if (member.states.some((state, set) => state !== states[set])) return false;
      if (member.variables.some((value, index) => differs(value, variables[index], 1e-6))) return false;
    }
  }
  return true;
}
