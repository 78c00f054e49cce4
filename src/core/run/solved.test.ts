import { expect, test } from "vitest";
import { MachineBuilder } from "../../../test/machines/build.ts";
import { smallDryer } from "../../../test/machines/small-dryer.ts";
import { openRunner } from "./index.ts";

test("watts at the plug are what the mains give: 230 V times the amperes of the line, and what all elements turn into heat", () => {
  const { machine } = smallDryer();
  const runner = openRunner(machine);
  const [member] = runner.healthy.pictures.get("heat@end")?.members ?? [];
  const solved = runner.restore([], member, "heat@end");
  const [core] = solved.atPlug();
  expect(core.volts).toBeCloseTo(230, 9);
  expect(solved.plugWatts()).toBeCloseTo(230 * core.amps, 6);
  const heat = machine.elements.reduce((sum, { what }, element) => {
    if (what === "V~" || what === "V=") return sum;
    const dcWatts = solved.live.volts(element, "=") * solved.live.amps(element, "=");
    return sum + solved.live.watts(element) - dcWatts;
  }, 0);
  expect(heat).toBeCloseTo(solved.plugWatts(), 6);
});

test("a meter of 10 MΩ on a wire behind 10 MΩ shows 115 V of the 230 V there, one of 400 kΩ 8.85 V", () => {
  const b = new MachineBuilder();
  b.element("mains.source", "V~", "L", "N", 230);
  b.element("damp.leak", "R", "L", "wire", 10e6);
  b.element("far.load", "R", "far", "end", 10);
  b.step("on");
  const runner = openRunner(b.build());
  const [member] = runner.healthy.pictures.get("on@end")?.members ?? [];
  const solved = runner.restore([], member);
  expect(solved.metered(b.node("wire"), b.node("N"), 10e6)).toEqual({ volts: 115, floats: false });
  expect(solved.metered(b.node("wire"), b.node("N"), 400e3).volts).toBeCloseTo((230 * 0.4) / 10.4, 9);
  expect(solved.metered(b.node("far"), b.node("N"), 10e6)).toEqual({ volts: 0, floats: true });
});

test("two lines of 120 V without a neutral: 240 V, 10 A and 2400 W, counted once", () => {
  const b = new MachineBuilder();
  b.element("mains.one", "V~", "s1", "n", 120);
  b.element("mains.two", "V~", "n", "s2", 120);
  const one = b.element("cord.line1", "R", "s1", "h1", 0.5);
  const two = b.element("cord.line2", "R", "s2", "h2", 0.5);
  b.element("heater.coil", "R", "h1", "h2", 23);
  b.step("on");
  const plugElements = [one, two].map((line) => ({ line, neutral: -1, earth: -1 }));
  const runner = openRunner(b.build({ plugElements }));
  const [member] = runner.healthy.pictures.get("on@end")?.members ?? [];
  const solved = runner.restore([], member);
  expect(solved.plugWatts()).toBeCloseTo(2400, 9);
  for (const core of solved.atPlug()) {
    expect(core.volts).toBeCloseTo(240, 9);
    expect(core.amps).toBeCloseTo(10, 9);
  }
});

test("a leak of 10 mA to earth shows on a clamp round line and neutral, 5 A of load do not", () => {
  const b = new MachineBuilder();
  b.element("mains.source", "V~", "L0", "N0", 230);
  b.element("bond.link", "R", "N0", "E", 0.1);
  const line = b.element("cord.line", "R", "L0", "L", 0.1);
  const neutral = b.element("cord.neutral", "R", "N0", "N", 0.1);
  b.element("heater.coil", "R", "L", "N", 46);
  const leak = b.element("heater.leak", "leak", "L", "E", Number.POSITIVE_INFINITY);
  b.step("on");
  const runner = openRunner(b.build({ plugElements: [{ line, neutral, earth: -1 }] }));
  const clamp = (effects: Parameters<typeof runner.run>[0]) => {
    const [member] = runner.run(effects).pictures.get("on@end")?.members ?? [];
    return runner.restore(effects, member).leakageAmps();
  };
  expect(clamp([])).toBeLessThan(1e-9);
  expect(clamp([{ does: "leak", element: leak, ohms: 23000 }])).toBeCloseTo(0.01, 4);
});
