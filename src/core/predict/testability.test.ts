import { describe, expect, it } from "vitest";
import { shippedMachine } from "../../../test/machines/shipped.ts";
import { plainMode } from "../../../test/machines/table-foresight.ts";
import { modesOf } from "../fault/index.ts";
import { atomsOf } from "./atom.ts";
import { Predictor } from "./predictor.ts";
import { probeTests, type Regime, type Test, testability } from "./testability.ts";
import { handheldProbes, usualProbes } from "./usual-probes.ts";

/**
 * Pattipati and Alexandridis' example: states s1..s5, tests t1..t5; a fault's row says which tests fail.
 *
 * @source K. Pattipati, M. Alexandridis, IEEE Trans. SMC 20(4), 1990 (inputs from memory)
 */
const ROWS = ["01001", "00110", "10011", "11000", "11110"];
const atoms = atomsOf(ROWS.map((_, s) => plainMode(s, `s${s + 1}`, { share: s + 1 })));

function tests(classes: readonly Test["class"][]): readonly Test[] {
  return classes.map((kind, t) => ({
    id: `t${t + 1}`,
    class: kind,
    shown: Float64Array.from([...ROWS, "00000"], (row) => Number(row[t])),
    sigma: new Float64Array(ROWS.length + 1),
  }));
}

describe("testability of five faults under five tests", () => {
  it("detects and isolates all of them in full", () => {
    const found = testability(atoms, tests(["closed", "closed", "opened", "clipped", "handheld"]), "in full");
    expect(found.detected).toBe(1);
    expect(found.isolatedTo[0]).toBe(1);
    expect(found.groups).toHaveLength(5);
  });

  it("detects 4 of 5 with t1 and t2 alone, s4 and s5 in one group, and misses s2", () => {
    const found = testability(atoms, tests(["closed", "closed", "opened", "opened", "opened"]), "nothing opened");
    expect(found.detected).toBeCloseTo(0.8, 12);
    expect(found.detectedByShare).toBeCloseTo(13 / 15, 12);
    expect(found.unseen).toEqual(["s2/open"]);
    expect(found.groups.map(({ faults }) => faults)).toContainEqual(["s4/open", "s5/open"]);
    expect(found.detectedThroughout).toBeCloseTo(13 / 15, 12);
    expect(found.isolatedTo[0]).toBeCloseTo(4 / 13, 12);
    expect(found.isolatedCounted[0]).toBeCloseTo(2 / 4, 12);
    expect(found.meanGroupCounted).toBeCloseTo((1 + 1 + 2 + 2) / 4, 12);
    expect(found.isolatedTo[1]).toBe(1);
    expect(found.meanGroup).toBeCloseTo((4 * 1 + 9 * 2) / 13, 12);
  });

  it("leaves out the readings held by hand on live parts when those are not allowed", () => {
    const found = testability(
      atoms,
      tests(["handheld", "handheld", "clipped", "opened", "closed"]),
      "never live by hand",
    );
    expect(found.tests).toBe(3);
    expect(found.unseen).toEqual(["s4/open"]);
  });
});

describe("faults that lie close together", () => {
  // Good 26 Ω; five faults 1 Ω apart, each known to 0.4 Ω: neighbours are one, those 2 Ω apart are not.
  const ohms = [27, 28, 29, 30, 31, 26];
  const close: Test = {
    id: "ohms",
    class: "closed",
    shown: Float64Array.from(ohms),
    sigma: new Float64Array(ohms.length).fill(0.4),
  };

  it("are not chained into one: 4 of 5 are told from 26 Ω, and each only from what is 2 Ω away", () => {
    const found = testability(atoms, [close], "in full");
    expect(found.unseen).toEqual(["s1/open"]);
    expect(found.groups.map(({ parts }) => parts).sort()).toEqual([2, 3, 3, 3]);
    expect(found.meanGroupCounted).toBeCloseTo(11 / 4, 12);
  });

  it("an open path is told from any value, and a thing no test shows is named", () => {
    const open = { ...close, shown: Float64Array.from([26, 26, 26, 26, Number.POSITIVE_INFINITY, 26]) };
    const found = testability(atoms, [open], "in full");
    expect(found.detected).toBeCloseTo(1 / 5, 12);
    expect(found.isolatedTo[0]).toBe(1);
    expect(found.blind).toEqual(["s1/open", "s2/open", "s3/open", "s4/open"]);
  });
});

describe("ohms at the heater's own tabs on the dryer, as a test", () => {
  const machine = shippedMachine("tumble-dryer");
  const predictor = new Predictor(machine, modesOf(machine));
  const atHeater = usualProbes(machine).filter(
    ({ at, probe }) => at !== undefined && "part" in at && at.part.id === "heater" && probe.quantity === "ohms",
  );
  const tests = probeTests(predictor, atHeater, () => ({
    id: "test",
    says: "test meter",
    ranges: [{ quantity: "ohms", top: 6000, resolution: 0.1, shareOfReading: 0.009, counts: 2 }],
    inputOhms: 1e7,
    leadOhms: { lo: 0, hi: 0 },
    nulledOhms: 0,
    source: "invented",
  }));

  it("shows 20 to 70 Ω of the good machine, nothing of an open heater, and the good machine's ohms of an open motor", () => {
    expect(tests.length).toBeGreaterThan(0);
    const fault = (start: string): number => predictor.atoms.findIndex(({ mode }) => mode.id.startsWith(start));
    const good = predictor.atoms.length;
    const [whole] = tests.filter(({ shown }) => shown[good] > 20 && shown[good] < 70);
    const open = predictor.atoms.flatMap(({ mode }, m) => (/^heater\/.*open/.test(mode.id) ? [m] : []));
    expect(open.length).toBeGreaterThan(0);
    expect(open.some((m) => whole.shown[m] === Number.POSITIVE_INFINITY)).toBe(true);
    const motor = fault("motor/");
    expect(motor).toBeGreaterThanOrEqual(0);
    expect(whole.shown[motor]).toBe(whole.shown[good]);
    expect(whole.sigma[motor]).toBe(whole.sigma[good]);
  });
});

describe("the dryer by how near to danger one goes", () => {
  const machine = shippedMachine("tumble-dryer");
  const predictor = new Predictor(machine, modesOf(machine));
  const meters = {
    id: "test",
    says: "test meter",
    ranges: [
      { quantity: "ohms" as const, top: 6e6, resolution: 0.1, shareOfReading: 0.009, counts: 2 },
      { quantity: "volts" as const, top: 600, resolution: 0.1, shareOfReading: 0.01, counts: 3 },
      { quantity: "watts" as const, top: 3600, resolution: 0.1, shareOfReading: 0.01, counts: 3, floor: 0.5 },
    ],
    inputOhms: 1e7,
    leadOhms: { lo: 0, hi: 0 },
    nulledOhms: 0,
    source: "invented",
  };
  const byHand = handheldProbes(machine);
  const known = new Set(meters.ranges.map(({ quantity }) => String(quantity)));
  const tests = probeTests(predictor, [...usualProbes(machine), ...byHand], (quantity) =>
    known.has(quantity) ? meters : undefined,
  );
  const of = (regime: Regime) => testability(predictor.atoms, tests, regime);

  it("counts volts across each part that no clip reaches, in each of its steps, and at no connector", () => {
    expect(byHand.length).toBeGreaterThan(4 * 30);
    expect(byHand.every(({ class: manner, at }) => manner === "handheld" && at !== undefined && "part" in at)).toBe(
      true,
    );
  });

  it("tells more apart with probes held on live parts than without, and more with covers off than with none opened", () => {
    const [full, careful, closed] = [of("in full"), of("never live by hand"), of("nothing opened")];
    expect(full.tests - careful.tests).toBe(byHand.length);
    expect(careful.tests).toBeGreaterThan(closed.tests);
    expect(full.meanGroupCounted).toBeLessThan(careful.meanGroupCounted);
    expect(careful.meanGroupCounted).toBeLessThan(closed.meanGroupCounted);
    expect(full.detected).toBeGreaterThanOrEqual(careful.detected);
    expect(careful.detected).toBeGreaterThan(closed.detected);
  });
});
