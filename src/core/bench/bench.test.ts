import { readdirSync, readFileSync } from "node:fs";
import { basename } from "node:path";
import { describe, expect, test } from "vitest";
import { type Meter, readMeter } from "../meter/index.ts";
import { instantiate, type Kind, readKind } from "../part/index.ts";
import { type Benched, type BenchTest, benchTestOf, celsiusOf, gradeOf, judgeStep, roundsOf } from "./index.ts";

function kindNamed(id: string): Kind {
  const kind = readKind(readFileSync(`data/kinds/${id}.yaml`, "utf8"), id);
  if (!kind.ok) throw new Error(JSON.stringify(kind.issues));
  return kind.value;
}

function testOf(id: string, ratings: Readonly<Record<string, string>> = {}, celsius?: number): BenchTest {
  const texts = new Map(Object.entries(ratings).map(([name, text]) => [name, { text, line: 1 }] as const));
  const instance = instantiate(kindNamed(id), texts, { at: [] });
  if (!instance.ok) throw new Error(JSON.stringify(instance.issues));
  return benchTestOf(instance.value, celsius);
}

function meterNamed(id: string): Meter {
  const meter = readMeter(readFileSync(`data/meters/${id}.yaml`, "utf8"), id);
  if (!meter.ok) throw new Error(JSON.stringify(meter.issues));
  return meter.value;
}

/** A meter of one ohms range, 0.1 Ω a count, ±10 counts: its limit is 1 Ω, its standard uncertainty 1/√3. */
const plain: Meter = {
  id: "plain",
  says: "a meter for tests",
  ranges: [{ quantity: "ohms", top: 600, resolution: 0.1, shareOfReading: 0, counts: 10 }],
  inputOhms: 1e7,
  leadOhms: { lo: 0, hi: 0 },
  nulledOhms: 0,
  beeperOhms: { lo: 30, hi: 50 },
  source: "made up for this test",
};

const step = (limits: { lo: number; hi: number }, repeat?: number) => ({
  index: 0,
  do: "measure" as const,
  says: "ohms",
  good: "",
  reading: { quantity: "ohms" as const, limits },
  live: false,
  ...(repeat === undefined ? {} : { repeat }),
});
const shows = (value: number) => ({ shown: { kind: "value" as const, value }, meter: plain, leads: { ohms: 0 } });

describe("a reading against its limits (JCGM 106:2012, 7.3; the normal table: NIST handbook 1.3.6.7.1)", () => {
  const u = 1 / Math.sqrt(3);

  test.each([
    [0, 0.5, "too close to say"],
    [1, 0.84134, "too close to say"],
    [2, 0.97725, "good"],
    [-2, 0.02275, "bad"],
  ])("%d standard uncertainties below the upper limit of 100 Ω: %d, %s", (below, probability, says) => {
    const verdict = judgeStep(step({ lo: Number.NEGATIVE_INFINITY, hi: 100 }), shows(100 - below * u));
    expect(verdict?.probability).toBeCloseTo(probability, 4);
    expect(verdict?.says).toBe(says);
  });
});

describe("repeated operations", () => {
  const contact = { ...step({ lo: Number.NEGATIVE_INFINITY, hi: 0.5 }, 20), reading: undefined };
  const { reading: _, ...counted } = contact;

  test("20 good of 20: at most 1 − 0.05^(1/20) = 0.1391 fail, 95 % sure (Clopper & Pearson 1934, none bad)", () => {
    const verdict = judgeStep(counted, { tally: { good: 20, of: 20 } });
    expect(verdict?.says).toBe("good");
    expect(verdict?.failsAtMost).toBeCloseTo(0.1391, 4);
  });

  test("19 good of 20 is not enough, and 5 good of 5 is not yet", () => {
    expect(judgeStep(counted, { tally: { good: 19, of: 20 } })?.says).toBe("bad");
    expect(judgeStep(counted, { tally: { good: 5, of: 5 } })).toMatchObject({ says: "go on", more: 15 });
  });

  test("one good reading of a contact that is to be tried 20 times settles nothing", () => {
    expect(judgeStep(step({ lo: Number.NEGATIVE_INFINITY, hi: 10 }, 20), shows(0.2))?.says).toBe("go on");
  });
});

describe("what is no number", () => {
  test("a beep below 30 to 50 Ω does not make a contact of 0.2 Ω good; silence makes it bad", () => {
    const contact = step({ lo: Number.NEGATIVE_INFINITY, hi: 0.2 });
    const word = (text: "beeps" | "no beep") => ({ shown: { kind: "word" as const, word: text }, meter: plain });
    expect(judgeStep(contact, word("beeps"))?.says).toBe("too close to say");
    expect(judgeStep(contact, word("no beep"))?.says).toBe("bad");
  });

  test("OL where OL is asked is good, a value there is a path, and OL of a coil is a break", () => {
    const open = step({ lo: Number.POSITIVE_INFINITY, hi: Number.POSITIVE_INFINITY });
    const over = { shown: { kind: "over limit" as const }, meter: plain };
    expect(judgeStep(open, over)?.says).toBe("good");
    expect(judgeStep(open, shows(12))?.says).toBe("bad");
    expect(judgeStep(step({ lo: 360, hi: 440 }), over)?.says).toBe("bad");
  });

  test("OL above 400 Ω leaves a coil of 360 to 440 Ω open: it may be whole or broken", () => {
    const above = { shown: { kind: "over limit" as const, top: 400 }, meter: plain };
    expect(judgeStep(step({ lo: 360, hi: 440 }), above)?.says).toBe("too close to say");
    expect(judgeStep(step({ lo: 360, hi: Number.POSITIVE_INFINITY }), above)?.says).toBe("good");
  });
});

describe("the sequence of a kind", () => {
  test("a two-pole relay: coil 360 to 440 Ω, each pole open at rest and 20 times closed, coil to contacts", () => {
    const { steps } = testOf("relay", { poles: "2" });
    expect(steps.map(({ do: act, says, repeat }) => [act, says, repeat])).toEqual([
      ["measure", "ohms A1 to A2", undefined],
      ["measure", "ohms 11 to 14, coil off", undefined],
      ["measure", "ohms 21 to 24, coil off", undefined],
      ["energise", "coil at U, then ohms 11 to 14, leads nulled", 20],
      ["energise", "coil at U, then ohms 21 to 24, leads nulled", 20],
      ["measure", "insulation of the coil to all contacts, 500 V", undefined],
    ]);
    expect(steps[0]?.reading?.limits).toEqual({ lo: 360, hi: 440 });
  });

  test("a heater of 2000 W +5 −10 % at 230 V reads 25.2 to 29.4 Ω (U²/P: trade practice, worked out)", () => {
    const limits = testOf("heater").steps[0]?.reading?.limits;
    expect(limits?.lo).toBeCloseTo(25.19, 2);
    expect(limits?.hi).toBeCloseTo(29.39, 2);
  });

  test("a sensor of 10 kΩ ±5 % at 25 °C: `R25` is its rating, not 0.25 Ω", () => {
    expect(testOf("ntc", {}, 25).steps[0]?.reading?.limits).toEqual({ lo: 9500, hi: 10500 });
  });

  test("a 230 V coil on the bench is live work, a 12 V one is not", () => {
    const live = (volts: string) => testOf("relay", { U: volts }).steps.some((one) => one.live);
    expect([live("230 V"), live("12 V")]).toEqual([true, false]);
  });

  test("every kind's sequence is made, and every ohms step of it has limits or is left to the person", () => {
    const kinds = readdirSync("data/kinds").map((file) => basename(file, ".yaml"));
    const tests = kinds.map((id) => testOf(id)).filter(({ steps }) => steps.length > 0);
    expect(tests.length).toBeGreaterThan(40);
    const judged = tests.flatMap(({ steps }) => steps).filter(({ reading }) => reading !== undefined);
    expect(judged.length).toBeGreaterThan(60);
    for (const { reading } of judged)
      expect(reading === undefined || reading.limits.lo <= reading.limits.hi).toBe(true);
  });
});

describe("a loose two-pole relay with one bad pole, cleaned, tested again", () => {
  const relay = testOf("relay", { poles: "2" });
  const meters = new Map(["handheld-6000", "insulation-tester"].map((id) => [id, meterNamed(id)]));
  const benched = (body: Benched, n: number) => ({
    id: `e${n}`,
    job: "j",
    time: "2026-03-01T09:00:00Z",
    device: "d",
    person: "",
    kind: "benched",
    body,
  });
  const ohms = { meter: "handheld-6000", leads: "nulled" as const };
  const first: Benched[] = [
    { step: 0, shows: "402", ...ohms },
    { step: 1, shows: "OL", ...ohms },
    { step: 2, shows: "OL", ...ohms },
    { step: 3, shows: "0.0", good: 20, of: 20, ...ohms },
    { step: 4, shows: "3.1", good: 14, of: 20, ...ohms },
    { step: 5, shows: "OL", meter: "insulation-tester" },
  ];
  const again = first.map((one) => (one.step === 4 ? { ...one, shows: "0.0", good: 20, of: 20 } : one));
  const rounds = (lists: readonly (readonly Benched[])[]) => {
    const events = lists.flatMap((list, round) => [
      ...(round === 0 ? [] : [{ ...benched(first[0] as Benched, 1000 * round), kind: "cleaned", body: null }]),
      ...list.map((body, n) => benched(body, 1000 * round + n + 1)),
    ]);
    return roundsOf({ events, withdrawn: new Set() }, () => relay, meters);
  };

  test("is not for use before; cleaned, a meter of 0.1 Ω a count cannot fault it, and does not prove 0.1 Ω either", () => {
    expect(gradeOf(relay, rounds([first]))).toEqual({ says: "not for use", cleaned: false });
    expect(rounds([first, again])).toHaveLength(2);
    expect(gradeOf(relay, rounds([first, again]))).toEqual({ says: "not faulted", cleaned: true });
  });

  test("a meter of 1 mΩ a count proves it good", () => {
    const range = { quantity: "ohms" as const, top: 6, resolution: 0.001, shareOfReading: 0.005, counts: 5 };
    const fine: Meter = { ...plain, id: "fine", ranges: [range, ...plain.ranges] };
    const contact = relay.steps[4];
    if (contact === undefined) throw new Error("a two-pole relay has six steps");
    const shown = { kind: "value" as const, value: 0.031 };
    const verdict = judgeStep(contact, { shown, meter: fine, leads: { ohms: 0 }, tally: { good: 20, of: 20 } });
    expect(verdict?.says).toBe("good");
  });

  test("a finding of a step that the test has no longer stays, told by its own words", () => {
    const old: Benched = { step: 3, does: "ohms over the spring", shows: "0.2", ...ohms };
    const [round] = rounds([[...first.slice(0, 3), old]]);
    expect(round?.others).toEqual([{ does: "ohms over the spring", shown: "0.2" }]);
    expect([...(round?.lines.keys() ?? [])]).toEqual([0, 1, 2]);
  });

  test("a step that moved to another place takes its finding along", () => {
    const moved: Benched = { ...(first[4] as Benched), step: 1, does: relay.steps[4]?.says ?? "" };
    const [round] = rounds([[moved]]);
    expect([...(round?.lines.keys() ?? [])]).toEqual([4]);
  });

  test("is not finished while a step of the last round is missing", () => {
    expect(gradeOf(relay, rounds([first, again.slice(0, 3)]))).toMatchObject({ says: "not finished" });
  });
});

test.each(readdirSync("data/kinds").map((file) => basename(file, ".yaml")))(
  "%s: every step that is read has limits",
  (id) => {
    const kind = kindNamed(id);
    const instance = instantiate(kind, new Map(), { at: [] });
    if (!instance.ok) return;
    const { steps } = benchTestOf(instance.value);
    const read = instance.value.bench.flatMap(({ reads }, n) => (reads === undefined ? [] : [n]));
    expect(read.filter((n) => steps[n]?.reading === undefined)).toEqual([]);
  },
);

describe("a part that is not at 20 °C", () => {
  const at = (id: string, celsius: number, ratings: Readonly<Record<string, string>> = {}) =>
    testOf(id, ratings, celsius).steps[0]?.reading;

  test("a coil of 400 Ω ± 10 % at 60 °C: its limits rise by (234.5 + 60)/(234.5 + 20) = 1.15717 (IEC 60335-1 clause 11)", () => {
    const { limits, perKelvin } = at("relay", 60, { coil: "400R ±10%" }) ?? {};
    expect(limits?.lo).toBeCloseTo(360 * 1.157171, 2);
    expect(limits?.hi).toBeCloseTo(440 * 1.157171, 2);
    expect(perKelvin).toBeCloseTo(1 / 294.5, 6);
  });

  test("a coil at 125 °C has 443.3/320 of its ohms at 25 °C (worked relay example of the coil temperature note, in check-values 5.09)", () => {
    const hot = at("relay", 125, { coil: "320R ±1%" })?.limits.hi ?? 0;
    const warm = at("relay", 25, { coil: "320R ±1%" })?.limits.hi ?? 1;
    expect(hot / warm).toBeCloseTo(443.31 / 320, 4);
  });

  // Device-tree R/T table "R25-10000-B-3974" of a public real-time operating system, in check-values 4.16.
  test.each([
    [-5, 44_424],
    [5, 26_075],
    [15, 15_881],
    [25, 10_000],
    [35, 6488],
    [85, 1072],
  ])("a sensor of 10 kΩ at 25 °C and B 3974 K has at %d °C %d Ω", (celsius, ohms) => {
    const { lo = 0, hi = 0 } = at("ntc", celsius, { R25: "10k ±1%", B: "3974" })?.limits ?? {};
    expect((lo + hi) / 2 / ohms).toBeCloseTo(1, 3);
  });

  test("what a thermometer leaves open spreads a sensor's reading: at the very limit less is said of it than of a resistor", () => {
    const { limits = { lo: 0, hi: 0 }, perKelvin = 0 } = at("ntc", 25, { R25: "10k ±5%", B: "3977" }) ?? {};
    expect(perKelvin).toBeCloseTo(-3977 / 298.15 ** 2, 2);
    const fine: Meter = {
      ...plain,
      ranges: [{ quantity: "ohms", top: 60_000, resolution: 1, shareOfReading: 0, counts: 1 }],
    };
    const judged = (rate?: number) => {
      const reading = { quantity: "ohms" as const, limits, ...(rate === undefined ? {} : { perKelvin: rate }) };
      const shown = { kind: "value" as const, value: 0.99 * limits.hi };
      return judgeStep({ ...step(limits), reading }, { shown, meter: fine, leads: { ohms: 0 } })?.says;
    };
    expect(judged()).toBe("good");
    expect(judged(perKelvin)).toBe("too close to say");
  });

  test("readings before and after the temperature was told are judged each at its own", () => {
    const meters = new Map([["handheld-6000", meterNamed("handheld-6000")]]);
    const event = (n: number, kind: string, body: unknown) => ({
      id: `e${n}`,
      job: "j",
      time: "2026-03-01T09:00:00Z",
      device: "d",
      person: "",
      kind,
      body,
    });
    const read = { step: 0, shows: "462", meter: "handheld-6000", leads: "nulled" };
    const testAt = (celsius: number) => testOf("relay", { coil: "400R ±10%" }, celsius);
    const says = (events: readonly ReturnType<typeof event>[]) =>
      roundsOf({ events, withdrawn: new Set() }, testAt, meters)[0]?.lines.get(0)?.verdict?.says;
    expect(says([event(1, "benched", read)])).toBe("bad");
    expect(says([event(1, "warmth", { celsius: 60 }), event(2, "benched", read)])).toBe("good");
    expect(says([event(1, "benched", read), event(2, "warmth", { celsius: 60 })])).toBe("bad");
    expect(celsiusOf({ events: [event(1, "warmth", { celsius: "hot" })], withdrawn: new Set() })).toBe(20);
  });
});
