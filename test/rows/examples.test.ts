// What the four jobs of the demonstration must say next, as their stories promise.
import { expect, it } from "vitest";
import { openJob } from "./jobs.ts";

const LONG = 60_000;

it(
  "one pole of two read good: the next step asks at the heater's connector, with the lid already open",
  () => {
    const [first] = openJob("examples/cold-one-pole.yaml").plan().steps;
    const points = (first?.questions ?? []).flatMap(({ probe }) => [probe?.from, probe?.to]);
    expect(points, `the step was ${first?.says}`).toContain("X3.3");
    expect(first?.setUp.filter((act) => act.do === "open")).toEqual([]);
  },
  LONG,
);

it(
  "one-shot fuse read open: it leads, and the job may not close before it is known why it opened",
  () => {
    const { belief, plan } = openJob("examples/cold-victim-of-lint.yaml");
    expect(belief.parts[0]?.part).toBe("one-shot");
    const { steps, unanswered, mayClose } = plan();
    expect(mayClose).toBe(false);
    expect(unanswered.map(({ protector }) => protector)).toEqual(["one-shot"]);
    expect(unanswered[0]?.reasons[0]?.reason).toBe("lint");
    expect(steps[0]?.do).toBe("why");
  },
  LONG,
);

it(
  "hums and starts by hand: the run capacitor leads at over 6 in 10, and is read or fitted next",
  () => {
    const { belief, plan } = openJob("examples/hums.yaml");
    expect(belief.parts[0]?.part).toBe("run-cap");
    expect(belief.parts[0]?.p).toBeGreaterThan(0.6);
    const [first] = plan().steps;
    const points = (first?.questions ?? []).flatMap(({ probe }) => [probe?.from, probe?.to]);
    expect(first?.course?.on === "run-cap" || points.some((point) => point?.startsWith("run-cap."))).toBe(true);
  },
  LONG,
);

it(
  "always damp and nothing broken: use leads, no cover is opened, and advice beats every part",
  () => {
    const { belief, plan } = openJob("examples/always-damp.yaml");
    expect(belief.parts[0]?.part).toBe("load");
    const { steps } = plan();
    expect(steps[0]?.setUp.filter((act) => act.do === "open")).toEqual([]);
    const repairs = steps.filter((step) => step.do === "repair");
    expect(repairs[0]?.course?.on).toBe("load");
  },
  LONG,
);
