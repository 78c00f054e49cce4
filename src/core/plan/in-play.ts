import type { Belief, Hypothesis, Live } from "../suspect/index.ts";

/** Machines told apart, where open slots allow many: an unknown slot must not crowd out the faults. */
const MOST_MACHINES = 4;
/** Two unrelated faults lighter than this are planned for as the likelier of the two; the other shows itself in the proof. */
const LIGHT_PAIR = 0.005;
/** Hypotheses gathered for each one that is kept. */
const GATHERED = 6;
/** Steps down from the heaviest (ln of the odds) at which hypotheses are gathered, until there are enough. */
const DEPTHS = [3, 5, 8, 14];

/**
 * The hypotheses that planning looks at: the heaviest, until they hold `mass`, at most `atMost`; in the order of the
 * case. What would be gone about in the same way stands together: the same fault on machines that open slots still allow
 * counts on the likeliest few, a light pair counts with its likelier fault.
 */
export function inPlay(hypotheses: readonly Hypothesis[], belief: Belief, atMost: number, mass: number): Live {
  const gathered = heaviest(belief.logPosterior, GATHERED * atMost);
  const weight = new Map(gathered.map((h) => [h, Math.exp(belief.logPosterior[h] as number)]));
  const of = (h: number): Hypothesis => hypotheses[h] as Hypothesis;
  const machines = likeliestMachines(gathered, weight, of);

  // The heaviest of each fault on each machine that is told apart, and of each fault at all.
  const home = new Map<string, number>();
  const anywhere = new Map<string, number>();
  for (const h of gathered) {
    const fault = faultOf(of(h));
    if (
      !anywhere.has(fault) ||
      (machines.has(of(h).candidate) && !machines.has(of(anywhere.get(fault) as number).candidate))
    ) {
      anywhere.set(fault, h);
    }
    home.set(`${of(h).candidate} ${fault}`, h);
  }
  const standIn = (h: number): number => {
    const { kind, candidate, modes, severities } = of(h);
    if (kind === "pair" && (weight.get(h) as number) < LIGHT_PAIR) {
      const singles = modes
        .map((mode, m) => home.get(`${candidate} ${mode.id}:${severities[m] ?? 0}`))
        .filter((one) => one !== undefined);
      const [likelier] = singles.sort((a, b) => (weight.get(b) as number) - (weight.get(a) as number));
      if (likelier !== undefined) return standIn(likelier);
    }
    return machines.has(candidate) ? h : (anywhere.get(faultOf(of(h))) as number);
  };
  const together = new Map<number, number>();
  for (const h of gathered) {
    const stands = standIn(h);
    together.set(stands, (together.get(stands) ?? 0) + (weight.get(h) as number));
  }

  const kept: (readonly [number, number])[] = [];
  let held = 0;
  for (const one of [...together].sort((a, b) => b[1] - a[1] || a[0] - b[0])) {
    if (kept.length >= atMost || held >= mass) break;
    kept.push(one);
    held += one[1];
  }
  kept.sort((a, b) => a[0] - b[0]);
  return {
    hypotheses: Int32Array.from(kept, ([h]) => h),
    weights: Float64Array.from(kept, ([, w]) => w / held),
  };
}

/** Indices of the heaviest, heaviest first; walks no deeper than it must, since there are tens of thousands. */
function heaviest(log: Float64Array, most: number): number[] {
  let top = Number.NEGATIVE_INFINITY;
  for (const value of log) if (value > top) top = value;
  let found: number[] = [];
  for (const depth of DEPTHS) {
    found = [];
    for (let h = 0; h < log.length; h++) if ((log[h] as number) > top - depth) found.push(h);
    if (found.length >= most) break;
  }
  return found.sort((a, b) => (log[b] as number) - (log[a] as number) || a - b).slice(0, most);
}

function likeliestMachines(
  gathered: readonly number[],
  weight: ReadonlyMap<number, number>,
  of: (h: number) => Hypothesis,
): ReadonlySet<number> {
  const held = new Map<number, number>();
  for (const h of gathered) held.set(of(h).candidate, (held.get(of(h).candidate) ?? 0) + (weight.get(h) as number));
  const order = [...held].sort((a, b) => b[1] - a[1] || a[0] - b[0]);
  return new Set(order.slice(0, MOST_MACHINES).map(([candidate]) => candidate));
}

/** What is wrong, whatever machine it is on. */
function faultOf({ kind, modes, severities, failsOn }: Hypothesis): string {
  if (modes.length === 0) return kind;
  const named = modes.map((mode, m) => `${mode.id}:${severities[m] ?? 0}`).join(" ");
  return failsOn < 1 ? `${named} on ${failsOn}` : named;
}
