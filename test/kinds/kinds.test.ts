// Kinds of the dishwasher and the washing machine, across 230 V in a bench sheet. Expected figures are the trade's, from
// memory or common practice (no published source); what a mode must do is what a technician would expect of it.
import { describe, expect, it } from "vitest";
import { type Bench, benchOf } from "./bench.ts";

const supply = "supply: {kind: board-supply, L: L, N: N, v12: v12, v5: v5, com: com, rail: isolated, access: open}";
const hidden = "earth-side: {kind: resistor, ohms: 1G, a: case, b: N, access: open}";
const module = [
  supply,
  "module: {kind: inverter-module, L: L, N: N, u: u, v: v, w: w, data: d, com: com, drives: go > 0, access: open}",
  "link: {kind: data-link, v5: v5, com: com, out: d, access: open}",
  hidden,
];

const benches = {
  valve: {
    parts: [
      "call: {kind: switch, shut: call, a: L, b: x, access: open}",
      "part: {kind: solenoid-valve, a1: x, b1: N, access: open}",
    ],
    inputs: { call: 1 },
    quantities: { flows: "part.flows", hums: "part.hums" },
  },
  "stop hose": {
    parts: ["part: {kind: stop-hose, a: L, b: N, access: open}"],
    quantities: { passes: "part.passes" },
  },
  "drain pump": {
    parts: ["part: {kind: drain-pump, a: L, b: N, access: open}"],
    quantities: { pumps: "part.pumps", hums: "part.hums", roars: "part.roars" },
  },
  "circulation pump": {
    parts: [
      "part: {kind: circulation-pump, main: L, aux: x, common: N, case: case, access: open}",
      "cap: {kind: capacitor, C: 3µ ±5%, a: x, b: L, access: open}",
      hidden,
    ],
    quantities: { pumps: "part.pumps", hums: "part.hums", drips: "part.drips", leak: "part.main-x.amps" },
  },
  "three-phase pump": {
    parts: [...module, "part: {kind: circulation-pump-three-phase, u: u, v: v, w: w, case: case, access: open}"],
    inputs: { go: 1 },
    quantities: { pumps: "part.pumps", trips: "module.tripped", drips: "part.drips", amps: "part.wind-v.amps" },
  },
  module: {
    parts: [
      ...module.map((line) => line.replace(/^module:/, "part:")),
      "pump: {kind: circulation-pump-three-phase, u: u, v: v, w: w, case: case, access: open}",
    ],
    inputs: { go: 1 },
    quantities: { drives: "part.drives", trips: "part.tripped", hears: "part.hears", bus: "part.bus.volts=" },
  },
  "data link": {
    parts: module
      .map((line) => line.replace(/^link:/, "part:"))
      .concat(["pump: {kind: circulation-pump-three-phase, u: u, v: v, w: w, case: case, access: open}"]),
    inputs: { go: 1 },
    quantities: { talks: "part.talks", drives: "module.drives" },
  },
  "brushless motor": {
    parts: [
      ...module,
      "part: {kind: brushless-motor, u: u, v: v, w: w, v5: v5, hall: h, com: com, case: case, access: open}",
      "count: {kind: pulse-input, in: h, v5: v5, com: com, access: open}",
    ],
    inputs: { go: 1 },
    quantities: { turns: "part.turns", counts: "count.counts", growls: "part.growls", amps: "part.wind-v.amps" },
  },
  "universal motor": {
    parts: [
      "part: {kind: universal-motor, field-a: L, field-b: x, rotor-a: x, rotor-b: N, tacho-a: t1, tacho-b: t2, case: case, access: open}",
      "tacho-load: {kind: resistor, ohms: 1M, a: t1, b: t2, access: open}",
      hidden,
    ],
    quantities: { turns: "part.turns", sparks: "part.sparks", tacho: "tacho-load.body.volts", seen: "part.speed-seen" },
  },
  "flow meter": {
    parts: [
      supply,
      "part: {kind: flow-meter, a: f, b: com, runs: water, access: open}",
      "count: {kind: pulse-input, in: f, v5: v5, com: com, access: open}",
    ],
    inputs: { water: 1 },
    quantities: { counts: "count.counts", volts: "count.sense.volts" },
  },
  "counting input": {
    parts: [
      supply,
      "meter: {kind: flow-meter, a: f, b: com, runs: 1, access: open}",
      "part: {kind: pulse-input, in: f, v5: v5, com: com, access: open}",
    ],
    quantities: { counts: "part.counts" },
  },
  "level sensor": {
    parts: [
      supply,
      "part: {kind: level-sensor, v5: v5, out: o, com: com, level: water, access: open}",
      "sense: {kind: sensor-input, in: o, v5: v5, com: com, access: open}",
    ],
    inputs: { water: 0.5 },
    quantities: { level: "part.level", volts: "sense.volts-seen", plausible: "sense.plausible" },
  },
  "sensor input": {
    parts: [
      supply,
      "level: {kind: level-sensor, v5: v5, out: o, com: com, level: 0.5, access: open}",
      "part: {kind: sensor-input, in: o, v5: v5, com: com, access: open}",
    ],
    quantities: { volts: "part.volts-seen" },
  },
  "pressure switch": {
    parts: [
      "part: {kind: pressure-switch, common: L, empty: e, full: f, level: water, access: open}",
      "empty: {kind: resistor, ohms: 1k, a: e, b: N, access: open}",
      "full: {kind: resistor, ohms: 500R, a: f, b: N, access: open}",
    ],
    inputs: { water: 2 },
    quantities: { pressed: "part.pressed", full: "full.body.volts" },
  },
  "turbidity sensor": {
    parts: [
      supply,
      "part: {kind: turbidity-sensor, v5: v5, out: o, com: com, cloudy: dirt, access: open}",
      "sense: {kind: sensor-input, in: o, v5: v5, com: com, access: open}",
    ],
    inputs: { dirt: 0 },
    quantities: { cloudy: "part.cloudy", lit: "part.lit", volts: "sense.volts-seen" },
  },
  dispenser: {
    parts: ["part: {kind: dispenser, a: L, b: N, access: open}"],
    quantities: { opens: "part.opens", clicks: "part.clicks" },
  },
  "bimetal lock": {
    parts: [
      "part: {kind: door-lock-bimetal, common: L, ptc-n: N, out: o, door: door, access: open}",
      "load: {kind: resistor, ohms: 100R, a: o, b: N, access: open}",
    ],
    inputs: { door: 1 },
    quantities: { locked: "part.locked", load: "load.body.volts" },
  },
  "pulse lock": {
    parts: [
      "part: {kind: door-lock-pulse, coil-a: L, coil-b: N, common: L, out: o, door: 1, frees: frees, access: open}",
      "load: {kind: resistor, ohms: 1k, a: o, b: N, access: open}",
    ],
    inputs: { frees: 0 },
    quantities: { locked: "part.locked", load: "load.body.volts" },
  },
  "gear motor": {
    parts: [
      "part: {kind: gear-motor, a: L, b: N, cam-a: L, cam-b: o, at-rest: home, access: open}",
      "load: {kind: resistor, ohms: 1k, a: o, b: N, access: open}",
    ],
    inputs: { home: 1 },
    quantities: { moves: "part.moves", load: "load.body.volts" },
  },
  varistor: { parts: ["part: {kind: varistor, a: L, b: N, access: open}"], quantities: {} },
  resistor: { parts: ["part: {kind: resistor, ohms: 1k, a: L, b: N, access: open}"], quantities: {} },
  "inrush limiter": {
    parts: [
      "part: {kind: inrush-limiter, a: L, b: x, access: open}",
      "load: {kind: resistor, ohms: 100R, a: x, b: N, access: open}",
    ],
    quantities: { warm: "part.warm" },
  },
  overload: {
    parts: [
      "part: {kind: overload, a: L, b: x, access: open}",
      "load: {kind: resistor, ohms: 60R, a: x, b: N, access: open}",
    ],
    quantities: { open: "part.open" },
  },
  "start device": {
    parts: [
      "part: {kind: start-device, a: L, b: x, access: open}",
      "load: {kind: resistor, ohms: 100R, a: x, b: N, access: open}",
    ],
    quantities: { hot: "part.hot" },
  },
  keys: {
    parts: [
      supply,
      "part: {kind: keypad-display, v5: v5, com: com, data: d, key1: k1, key2: k2, presses: press, access: open}",
      "one: {kind: contact-input, in: k1, v5: v5, com: com, access: open}",
      "two: {kind: contact-input, in: k2, v5: v5, com: com, access: open}",
      "link: {kind: resistor, ohms: 10k, a: d, b: com, access: open}",
    ],
    inputs: { press: 0 },
    quantities: { shows: "part.shows", one: "one.shut", data: "link.body.volts", line: "one.sense.volts" },
  },
} satisfies Readonly<Record<string, Bench>>;

describe("a good part draws what the trade says", () => {
  it.each([
    ["valve", 5, 8],
    ["drain pump", 20, 40],
    ["circulation pump", 30, 120],
    ["three-phase pump", 30, 120],
    ["gear motor", 3, 60],
    ["universal motor", 300, 700],
  ] as const)("%s: %d to %d W", (name, lo, hi) => {
    const { watts, hunts } = benchOf(benches[name]).on();
    expect(watts).toBeGreaterThan(lo);
    expect(watts).toBeLessThan(hi);
    expect(hunts).toBe(0);
  });

  it.each([
    ["valve", "part.a1", "part.b1", 3500, 4500],
    ["drain pump", "part.a", "part.b", 120, 200],
    ["circulation pump", "part.main", "part.common", 30, 120],
    ["three-phase pump", "part.u", "part.v", 5, 60],
    ["brushless motor", "part.u", "part.w", 2, 15],
    ["universal motor", "part.field-a", "part.field-b", 0.8, 3],
    ["universal motor", "part.rotor-a", "part.rotor-b", 1.2, 4.3],
    ["universal motor", "part.tacho-a", "part.tacho-b", 40, 600],
    ["dispenser", "part.a", "part.b", 1000, 2500],
    ["bimetal lock", "part.common", "part.ptc-n", 500, 1500],
    ["pulse lock", "part.coil-a", "part.coil-b", 60, 200],
  ] as const)("%s reads from %s to %s: %d to %d Ω", (name, from, to, lo, hi) => {
    const ohms = benchOf(benches[name]).ohms(from, to);
    expect(ohms).toBeGreaterThanOrEqual(lo);
    expect(ohms).toBeLessThanOrEqual(hi);
  });
});

describe("a good part does its work", () => {
  it.each([
    ["valve", "flows", 1],
    ["stop hose", "passes", 1],
    ["drain pump", "pumps", 1],
    ["circulation pump", "pumps", 1],
    ["three-phase pump", "pumps", 1],
    ["brushless motor", "counts", 1],
    ["universal motor", "turns", 1],
    ["flow meter", "counts", 1],
    ["level sensor", "plausible", 1],
    ["pressure switch", "pressed", 1],
    ["dispenser", "opens", 1],
    ["bimetal lock", "locked", 1],
    ["pulse lock", "locked", 1],
    ["start device", "hot", 1],
    ["inrush limiter", "warm", 1],
    ["keys", "shows", 1],
  ] as const)("%s: %s = %d", (name, quantity, expected) => {
    expect(benchOf(benches[name]).on().asked(quantity)).toBe(expected);
  });

  it("the bimetal lock reads OL from common to out when cold, and locks only with the door shut", () => {
    const [lock = ""] = benches["bimetal lock"].parts;
    const alone = benchOf({ parts: [lock], inputs: { door: 1 } });
    expect(alone.ohms("part.common", "part.out")).toBe(Number.POSITIVE_INFINITY);
    const open = benchOf({ ...benches["bimetal lock"], inputs: { door: 0 } });
    expect(open.on().asked("locked")).toBe(0);
  });

  it("the module holds 310 to 325 V on its bus, and needs the link to drive", () => {
    const bench = benchOf(benches.module);
    expect(bench.on().asked("bus")).toBeGreaterThan(310);
    expect(bench.on().asked("bus")).toBeLessThan(325);
    expect(bench.on("link/driver dead").asked("drives")).toBe(0);
    // dead, an ohmmeter does not open its rectifier: megohms
    const [, alone = ""] = benches["three-phase pump"].parts;
    expect(benchOf({ parts: [alone], inputs: { go: 1 } }).ohms("module.L", "module.N")).toBeGreaterThan(1e6);
  });

  it("a level sensor gives 0.5, 2 and 3.8 V for empty, filled and over", () => {
    const volts = [0, 0.5, 2].map((water) =>
      benchOf({ ...benches["level sensor"], inputs: { water } })
        .on()
        .asked("volts"),
    );
    expect(volts.map((each) => Math.round(each * 10) / 10)).toEqual([0.5, 2, 3.8]);
  });
});

describe("a part at fault shows what a technician would see", () => {
  it.each([
    ["drain pump", "part/jammed", "hums", 1],
    ["drain pump", "part/coil open", "hums", 0],
    ["drain pump", "part/impeller off or worn", "roars", 1],
    ["circulation pump", "cap/open", "hums", 1],
    ["circulation pump", "cap/open", "pumps", 0],
    ["circulation pump", "part/auxiliary winding open", "pumps", 0],
    ["three-phase pump", "part/jammed or limed", "trips", 1],
    ["three-phase pump", "part/one winding open", "trips", 1],
    ["brushless motor", "part/Hall sensor dead", "turns", 1],
    ["brushless motor", "part/Hall sensor dead", "counts", 0],
    ["universal motor", "part/brushes worn", "sparks", 1],
    ["universal motor", "part/field open", "turns", 0],
    ["universal motor", "part/tacho open", "tacho", 0],
    ["valve", "part/stuck shut", "hums", 1],
    ["valve", "part/coil 1 open", "flows", 0],
    ["bimetal lock", "part/heater stone open", "locked", 0],
    ["bimetal lock", "part/contact fails", "load", 0],
    ["pulse lock", "part/coil open", "locked", 0],
    ["pressure switch", "part/stuck at rest", "full", 0],
    ["turbidity sensor", "part/film on the window", "cloudy", 1],
    ["keys", "part/keypad logic dead", "data", 0],
  ] as const)("%s, %s: %s = %d", (name, mode, quantity, expected) => {
    expect(benchOf(benches[name]).on(mode).asked(quantity)).toBeCloseTo(expected, 1);
  });

  it("an 8 to 16 % drop of a run capacitor of 3 µF does not stop the pump; a loss of 80 % does", () => {
    const bench = benchOf(benches["circulation pump"]);
    expect(bench.on("cap/low value", -1).asked("pumps")).toBe(1);
    expect(bench.on("cap/low value", 0).asked("pumps")).toBe(0);
  });

  it("a shorted varistor trips the house: no watts at the plug", () => {
    expect(benchOf(benches.varistor).on("part/shorted after a surge").watts).toBeLessThan(0.1);
  });

  /** Modes that neither work, watts nor ohms of this bench can show, each with what shows it. */
  const unseen: Readonly<Record<string, string>> = {
    "module part/bleed open": "the wait until the bus is dead",
    "module part/bus capacitor dried": "microfarads",
  };

  it.each(Object.entries<Bench>(benches))(
    "every mode of the %s changes its work, its watts, or an ohms reading",
    (name, bench) => {
      // Whatever hands and water can be: each input as given, and the other way.
      const worlds = [
        bench,
        ...Object.entries(bench.inputs ?? {}).map(([input, value]) => ({
          ...bench,
          inputs: { ...bench.inputs, [input]: value > 0 ? 0 : 1 },
        })),
      ];
      const stands = worlds.map((world) => benchOf(world));
      const [stand] = stands;
      const part = stand?.machine.parts.find((each) => each.id === "part");
      if (stand === undefined || part === undefined) throw new Error("no part");
      const points = new Set(stand.machine.points.map((point) => point.id));
      const pins = [...part.pins.keys()].filter((pin) => points.has(`part.${pin}`));
      const seen = (mode?: string): string =>
        stands
          .flatMap((each) => {
            const on = each.on(mode, -1);
            const work = Object.keys(bench.quantities ?? {}).map((quantity) => on.asked(quantity).toPrecision(3));
            const ohms = pins.flatMap((pin, i) =>
              pins.slice(i + 1).map((to) => each.ohms(`part.${pin}`, `part.${to}`, mode, -1).toPrecision(2)),
            );
            return [on.watts.toFixed(1), ...work, ...ohms];
          })
          .join(" ");
      const good = seen();
      const modes = stand.modes.filter((mode) => mode.id.startsWith("part/"));
      const silent = modes.filter((mode) => seen(mode.id) === good).map((mode) => `${name} ${mode.id}`);
      expect(modes.length).toBeGreaterThan(1);
      expect(silent).toEqual(Object.keys(unseen).filter((id) => id.startsWith(`${name} `)));
    },
  );
});
