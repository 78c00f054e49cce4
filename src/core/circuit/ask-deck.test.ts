import { expect, test } from "vitest";
import { type Answer, askDeck } from "./index.ts";

function ask(deck: string, question: object, hertz = 50): Answer {
  const answers = askDeck(`deck\n${deck}`, { hertz, questions: [{ id: "q", ...question }] });
  if (!answers.ok) throw new Error(JSON.stringify(answers.issues));
  return answers.value[0];
}

function value(deck: string, question: object, hertz?: number): number {
  const answer = ask(deck, question, hertz);
  return "value" in answer ? answer.value : Number.NaN;
}

const divider = "v1 a 0 10\nr1 a b 1k\nr2 b 0 3k\n";
const heater = "vmains l n AC 230\nrl l h1 0.2\nrheat h1 h2 26\nrn h2 n 0.1\nrleak h1 0 1meg\n";

test("a DC divider gives 7.5 V, 2.5 mA and 18.75 mW, magnitudes with the sign in re", () => {
  expect(ask(divider, { dc: true, volts: ["b", "0"] })).toEqual({ id: "q", value: 7.5, unit: "V", re: 7.5 });
  expect(ask(divider, { dc: true, volts: ["0", "b"] })).toEqual({ id: "q", value: 7.5, unit: "V", re: -7.5 });
  expect(ask(divider, { dc: true, amps: "r2" })).toEqual({ id: "q", value: 2.5e-3, unit: "A", re: 2.5e-3 });
  expect(ask(divider, { dc: true, watts: "r2" })).toEqual({ id: "q", value: 18.75e-3, unit: "W" });
});

test("a source gives what is taken: 25 mW, negative, and its current runs from minus to plus inside", () => {
  expect(ask(divider, { dc: true, watts: "v1" })).toEqual({ id: "q", value: 25e-3, unit: "W", re: -25e-3 });
  expect(ask(divider, { dc: true, amps: "v1" })).toEqual({ id: "q", value: 2.5e-3, unit: "A", re: -2.5e-3 });
});

test("AC answers are phasors: 50 Hz over 1 kΩ and 1 µF lags by the arctangent of 2π·50·1e-3", () => {
  const answer = ask("v1 a 0 AC 230 30\nr1 a b 1k\nc1 b 0 1u\n", { volts: ["b", "0"] });
  if (!("value" in answer)) throw new Error(JSON.stringify(answer));
  const lag = 2 * Math.PI * 50 * 1e-3;
  expect(answer.value).toBeCloseTo(230 / Math.hypot(1, lag), 12);
  expect(Math.atan2(answer.im ?? 0, answer.re ?? 0)).toBeCloseTo(Math.PI / 6 - Math.atan(lag), 14);
});

test("watts of a coil and a capacitor are 0, of its resistor I²R", () => {
  const deck = "v1 a 0 AC 100\nr1 a b 30\nl1 b 0 0.1273239544735163\n";
  expect(value(deck, { watts: "r1" })).toBeCloseTo(120, 9);
  expect(value(deck, { watts: "l1" })).toBe(0);
  expect(value(deck, { watts: "v1" })).toBeCloseTo(120, 9);
});

test("each fault does what it says to 26 Ω: series, parallel, scale, leak, open, short", () => {
  const remove = ["vmains"];
  const ohms = (faults: object[], nodes = ["h1", "h2"]): number => value(heater, { remove, ohms: nodes, faults });
  expect(ohms([])).toBe(26);
  expect(ohms([{ series: "rheat", ohms: 4 }])).toBe(30);
  expect(ohms([{ parallel: "rheat", ohms: 26 }])).toBe(13);
  expect(ohms([{ scale: "rheat", by: 0.5 }])).toBe(13);
  expect(ohms([{ leak: "h1", to: "h2", ohms: 26 }])).toBe(13);
  expect(ohms([{ short: "rheat" }])).toBe(0);
  expect(
    ohms([
      { series: "rheat", ohms: 4 },
      { parallel: "rheat", ohms: 26 },
    ]),
  ).toBe(17);
  expect(ohms([{ open: "rheat" }, { leak: "h2", to: "0", ohms: 1e9 }])).toBe(1.001e9);
  expect(value(heater, { remove, ohms: ["h1", "h2"], set: { rheat: 1e15 } })).toBe(1e15);
  expect(value(heater, { remove, ohms: ["h1", "h2"], set: { rheat: 0 } })).toBe(0);
});

test("an open names the parts and points that stand in the way, faults before removed parts", () => {
  expect(ask(heater, { remove: ["vmains"], faults: [{ open: "rheat" }], ohms: ["l", "n"] })).toEqual({
    id: "q",
    open: true,
    because: "no path from l to n: rheat between h1 and h2 (open by fault); vmains between l and n (removed)",
  });
  expect(ask("c1 a b 1u\nr1 b 0 5\nr2 x y 1\n", { ohms: ["a", "0"] })).toEqual({
    id: "q",
    open: true,
    because: "no path from a to 0: c1 between a and b (a capacitor, open at DC)",
  });
  expect(ask("r1 a b 5\nr2 x y 1\n", { ohms: ["a", "x"] })).toEqual({
    id: "q",
    open: true,
    because: "no path from a to x: no element joins a's side to the rest",
  });
});

test("volts between two islands are open, within a dead island 0, and through an open element 0 A flow", () => {
  const deck = `${divider}r8 x y 5\n`;
  expect("open" in ask(deck, { dc: true, volts: ["x", "b"] })).toBe(true);
  expect(value(deck, { dc: true, volts: ["x", "y"] })).toBe(0);
  expect(value(deck, { dc: true, faults: [{ open: "r1" }], amps: "r1" })).toBe(0);
  expect(value(deck, { dc: true, faults: [{ open: "r1" }], amps: "v1" })).toBe(0);
  expect(value(deck, { dc: true, faults: [{ open: "r1" }], volts: ["a", "b"] })).toBe(10);
});

test("0 V sources and 0 Ω elements are shorts that carry a current, found by Kirchhoff's law", () => {
  const deck = "v1 a 0 10\nvam a b 0\nr0 b c 0\nr1 c d 4\nl1 d e 1m\nr2 e 0 1\n";
  for (const name of ["vam", "r0", "r1", "l1", "r2"]) expect(value(deck, { dc: true, amps: name })).toBe(2);
  expect(value(deck, { dc: true, watts: "r0" })).toBe(0);
  expect(value(deck, { dc: true, faults: [{ short: "r1" }], amps: "r1" })).toBe(10);
});

test("a loop of shorts leaves their current undetermined, and nothing else", () => {
  const deck = "v1 a 0 10\nr1 a b 0\nl1 a b 1m\nr2 b 0 5\n";
  expect(value(deck, { dc: true, volts: ["b", "0"] })).toBe(10);
  expect(value(deck, { dc: true, amps: "r2" })).toBe(2);
  expect(ask(deck, { dc: true, amps: "l1" })).toEqual({
    id: "q",
    undefined: true,
    because: "l1 is in a loop without resistance, so its current is not determined",
  });
});

test("a shorted source contradicts itself; a second one that agrees does not", () => {
  expect(ask(divider, { dc: true, faults: [{ short: "r1" }, { short: "r2" }], volts: ["b", "0"] })).toEqual({
    id: "q",
    undefined: true,
    because: "v1 is in a loop without resistance with r1, r2, and their volts do not add up",
  });
  const twin = `${divider}v2 a2 0 10\nr3 a a2 0\n`;
  expect(value(twin, { dc: true, volts: ["b", "0"] })).toBe(7.5);
  expect("undefined" in ask(twin, { dc: true, amps: "v1" })).toBe(true);
  expect("undefined" in ask(twin, { dc: true, set: { v2: 9 }, volts: ["b", "0"] })).toBe(true);
});

test("a current source drives 1 mA through 3 kΩ, nothing when removed, and contradicts an open", () => {
  const deck = "i1 0 b 1m\nr1 b c 1k\nr2 c 0 2k\n";
  expect(ask(deck, { dc: true, volts: ["b", "0"] })).toEqual({ id: "q", value: 3, unit: "V", re: 3 });
  expect(value(deck, { dc: true, amps: "i1" })).toBe(1e-3);
  expect(ask(deck, { dc: true, watts: "i1" })).toEqual({ id: "q", value: 3e-3, unit: "W", re: -3e-3 });
  expect(value(deck, { dc: true, remove: ["i1"], volts: ["b", "0"] })).toBe(0);
  expect(ask(deck, { dc: true, faults: [{ open: "r1" }], volts: ["b", "0"] })).toEqual({
    id: "q",
    undefined: true,
    because: "i1 drives a current that has no way back",
  });
});

test("sources that float, touch or stand apart add: 5 V on a mains-borne rail, three phases to a star", () => {
  const rail = `${heater}vrail p h2 5\nrs p m 1k\nrt m h2 4k\n`;
  expect(value(rail, { dc: true, volts: ["m", "h2"] })).toBe(4);
  expect(value(rail, { dc: true, volts: ["l", "n"] })).toBe(0);
  expect(value(rail, { volts: ["m", "p"] })).toBeLessThan(1e-27);
  const star = "va a 0 AC 230\nvb b 0 AC 230 -120\nvc c 0 AC 230 120\nra a s 50\nrb b s 50\nrc c s 50\n";
  expect(value(star, { volts: ["s", "0"] })).toBeLessThan(1e-27);
  expect(value(star, { volts: ["a", "b"] })).toBeCloseTo(230 * Math.sqrt(3), 12);
  expect(value(star, { faults: [{ open: "rc" }], volts: ["s", "0"] })).toBeCloseTo(115, 12);
});

test("sources left in do not disturb ohms: the voltage source is a short, the current source open", () => {
  const deck = `${divider}i1 0 b 1m\n`;
  expect(value(deck, { ohms: ["b", "0"] })).toBe(750);
  expect(value(deck, { remove: ["v1"], ohms: ["b", "0"] })).toBe(3000);
  expect(value("v1 a 0 10\nl1 a b 1\nc1 b 0 1u\nr1 b 0 5\n", { ohms: ["a", "b"] })).toBe(0);
});

test("partials of a divider are the textbook's: volts by R1 -10·3k/4k², by R2 10·1k/4k², by V1 3/4", () => {
  const answer = ask(divider, { dc: true, volts: ["b", "0"], partials: true });
  expect("partials" in answer && answer.partials).toEqual({ v1: 0.75, r1: -1.875e-3, r2: 6.25e-4 });
  const ohms = ask(divider, { ohms: ["b", "0"], partials: true });
  expect("partials" in ohms && ohms.partials).toEqual({ r1: 0.5625, r2: 0.0625 });
});

test("every partial, AC and DC, under every fault, equals the central difference of the answer to 1e-8", () => {
  const deck =
    "v1 a 0 DC 12 AC 230 20\ni1 0 c DC 2m AC 3m\nr1 a b 100\nc1 b c 3u\nl1 b c 0.4\nr2 c 0 220\nr3 b d 1k\nc2 d 0 0.5u\nr4 d c 470\nv2 e d DC 3 AC 1\nr5 e 0 10k\n";
  const faultLists = [
    [],
    [{ series: "r1", ohms: 30 }],
    [{ parallel: "c1", ohms: 5e3 }],
    [{ scale: "l1", by: 1.5 }],
    [{ open: "r4" }, { leak: "b", to: "e", ohms: 1e3 }],
    [{ short: "r3" }],
  ];
  const values: Record<string, number> = {
    v1: 230,
    i1: 3e-3,
    r1: 100,
    c1: 3e-6,
    l1: 0.4,
    r2: 220,
    r3: 1e3,
    c2: 0.5e-6,
    r4: 470,
    v2: 1,
    r5: 1e4,
  };
  const dcValues: Record<string, number> = { ...values, v1: 12, i1: 2e-3, v2: 3 };
  let compared = 0;
  for (const dc of [false, true])
    for (const faults of faultLists) {
      const at = (set: object): { re: number; im: number } => {
        const answer = ask(deck, { dc, faults, set, volts: ["d", "b"] });
        if (!("value" in answer)) throw new Error(JSON.stringify(answer));
        return { re: answer.re ?? 0, im: answer.im ?? 0 };
      };
      const answer = ask(deck, { dc, faults, volts: ["d", "b"], partials: true });
      if (!("value" in answer) || answer.partials === undefined) throw new Error(JSON.stringify(answer));
      for (const [name, partial] of Object.entries(answer.partials)) {
        const nominal = (dc ? dcValues : values)[name];
        const step = nominal * 1e-5;
        const [up, down] = [at({ [name]: nominal + step }), at({ [name]: nominal - step })];
        const { re, im } = typeof partial === "number" ? { re: partial, im: 0 } : partial;
        const gap = Math.hypot((up.re - down.re) / (2 * step) - re, (up.im - down.im) / (2 * step) - im);
        expect(gap * nominal).toBeLessThanOrEqual(1e-8 * (answer.value + Math.hypot(re, im) * nominal));
        compared++;
      }
    }
  expect(compared).toBe(2 * 6 * 11);
});

test("an ideal tank at resonance has no answer, and one beside it has", () => {
  const deck = "v1 a 0 AC 1\nl1 a b 1\nc1 b 0 1\n";
  const resonance = ask(deck, { volts: ["b", "0"] }, 1 / (2 * Math.PI));
  expect("value" in resonance && resonance.value < 1e12).toBe(false);
  expect(value(deck, { volts: ["b", "0"] }, 2 / (2 * Math.PI))).toBeCloseTo(1 / 3, 12);
});

test("names are compared without case, and subcircuit elements answer to x1.r1 and r.x1.r1", () => {
  const deck = ".subckt s a b\nR1 a b 5\n.ends\nX1 In 0 S\nV1 IN 0 10\n";
  expect(value(deck, { dc: true, amps: "x1.r1" })).toBe(2);
  expect(value(deck, { dc: true, amps: "R.X1.R1" })).toBe(2);
  expect(value(deck, { dc: true, volts: ["in", "0"] })).toBe(10);
});
