import { draw, seeded } from "../chance/index.ts";
import type { Issue } from "../issue/index.ts";
import type { Machine } from "../sheet/index.ts";
import { goodAnswers } from "./good-answers.ts";
import type { Run } from "./picture.ts";
import type { Runner } from "./runner.ts";

/** Good machines drawn within their tolerances; one in forty-four lies beyond two standard deviations. */
const drawnMachines = 100;
/** So many of them may differ from the nominal one before a threshold is called too near. */
const mayDiffer = 2;
const seed = "good machines";

/** What a good machine should not do: say, stop, trip, open, hunt, or miss its watts. */
export function checkHealthy(runner: Runner): Issue[] {
  const { machine, healthy } = runner;
  const issues: Issue[] = [];
  const add = (code: string, at: readonly string[], found: string, expected: string, hint: string): void => {
    issues.push({ code, severity: "error", at, found, expected, hint });
  };
  for (const { step, says } of healthy.said) {
    add(
      "run.healthy.says",
      ["steps", step],
      `a good machine says "${says}"`,
      "silence",
      "look at what the step needs and at its time-outs",
    );
  }
  for (const { id } of machine.steps) {
    if (healthy.reached.includes(id)) continue;
    add(
      "run.healthy.stops",
      ["steps", id],
      "a good machine that never comes to this step",
      "every step reached",
      "look at enters-if, needs and run-by of the steps before",
    );
  }
  for (const part of trippedIn(machine, healthy)) {
    add(
      "run.healthy.trips",
      ["parts", part],
      "a good machine that trips it",
      "nothing tripped",
      "look at its ratings and at what leaks in a good machine",
    );
  }
  for (const part of healthy.wouldOpen) {
    add(
      "run.healthy.would-open",
      ["parts", machine.parts[part].id],
      "a good machine that opens it",
      "nothing opened",
      "look at its limit and at the world value it feels",
    );
  }
  const steps = new Set(machine.steps.map(({ id }) => id));
  for (const { step, haste } of healthy.hunts) {
    if (!steps.has(step)) continue;
    add(
      "run.healthy.hunts",
      ["steps", step],
      `a good machine that goes round and round, each time within ${haste}`,
      "a machine that settles",
      "look at the guards and at the moves of its parts",
    );
  }
  for (const { id, watts } of machine.steps) {
    if (watts === undefined) continue;
    const seen = wattsIn(runner, healthy, id);
    if (seen >= watts.lo && seen <= watts.hi) continue;
    add(
      "run.healthy.watts",
      ["steps", id, "watts"],
      `${seen.toPrecision(3)} W at the plug`,
      `${watts.lo} to ${watts.hi} W`,
      "look at the ratings of what runs in this step",
    );
  }
  return issues;
}

/** Draws good machines within their tolerances: what the nominal one does, nearly all of them should do. */
export function checkDrawn(runner: Runner): Issue[] {
  const { machine } = runner;
  const random = seeded(seed);
  const nominal = verdicts(runner);
  const otherwise = new Map<string, number>();
  for (let n = 0; n < drawnMachines; n++) {
    const drawn = verdicts(runner.drawn(machine.parameters.map(({ rated }) => draw(rated, random))));
    for (const [what, verdict] of nominal) {
      if (drawn.get(what) !== verdict) otherwise.set(what, (otherwise.get(what) ?? 0) + 1);
    }
  }
  return [...otherwise]
    .filter(([, count]) => count > mayDiffer)
    .map(([what, count]) => ({
      code: "run.threshold.near",
      severity: "warning",
      at: [what],
      found: `"${nominal.get(what)}" in the nominal machine, otherwise in ${count} of ${drawnMachines} good ones within their tolerances`,
      expected: `otherwise in at most ${mayDiffer} of ${drawnMachines}`,
      hint: "move the threshold, or narrow a rating that is wider than it need be",
    }));
}

/** What a good machine's run comes to, in words that can be compared, by what they are about. */
function verdicts(runner: Runner): Map<string, string> {
  const { machine, healthy } = runner;
  const verdicts = new Map(goodAnswers(runner).map(([sign, answer]) => [`signs.${sign}`, answer]));
  verdicts.set("says", healthy.said.map(({ says }) => says).join(", "));
  verdicts.set("comes to", healthy.reached.join(", "));
  verdicts.set("trips", trippedIn(machine, healthy).join(", "));
  verdicts.set("would open", healthy.wouldOpen.map((part) => machine.parts[part].id).join(", "));
  for (const { id, watts } of machine.steps) {
    if (watts === undefined) continue;
    const seen = wattsIn(runner, healthy, id);
    const place = seen < watts.lo ? "under" : seen > watts.hi ? "over" : "within";
    verdicts.set(`steps.${id}.watts`, `${place} its band`);
  }
  return verdicts;
}

/**
 * Parts whose lasting states (those that stay with the plug out) have moved by the end of any step. One that the machine
 * itself moves back, like a lock that is pulsed shut and open, has not tripped.
 */
function trippedIn(machine: Machine, run: Run): string[] {
  return machine.stateSets.flatMap((set, index) => {
    const moved = machine.steps.some(({ id }) =>
      run.pictures.get(`${id}@end`)?.members.some((member) => member.states[index] !== 0),
    );
    const goesBack = set.moves.some(({ to }) => to === 0);
    return set.keeps && !goesBack && moved ? [machine.parts[set.part].id] : [];
  });
}

function wattsIn(runner: Runner, run: Run, step: string): number {
  const key = `${step}@end`;
  const members = run.pictures.get(key)?.members ?? [];
  return members.reduce((sum, member) => sum + member.weight * runner.restore([], member, key).plugWatts(), 0);
}
