import type { Machine } from "../../src/core/sheet/index.ts";
import { MachineBuilder } from "./build.ts";

export interface SmallDryer {
  readonly machine: Machine;
  readonly heater: number;
  readonly motor: number;
  readonly contact: number;
  readonly relay: number;
  readonly cutOut: number;
  readonly oneShot: number;
  readonly exhaust: number;
  readonly airway: number;
  readonly door: number;
}

/**
 * A dryer of a dozen elements: 230 V through 0.4 Ω; a motor relay and a heat relay on a 12 V rail; a 22 Ω heater behind
 * a cut-out (opens at 155 °C, shuts at 130) and a one-shot fuse (180 °C). The guard lets it heat while the drum magnet
 * is seen and the air is below 75 °C. All figures invented.
 */
export function smallDryer(): SmallDryer {
  const b = new MachineBuilder();
  const door = b.variable("door", "input", 1);
  const airway = b.variable("airway", "input", 1);
  b.variable("plugged", "input", 1);
  const motorOut = b.variable("motor-out", "output");
  const heatOut = b.variable("heat-out", "output");

  b.element("mains.source", "V~", "L0", "N0", 230);
  const line = b.element("mains.line", "R", "L0", "L", 0.3);
  const neutral = b.element("mains.neutral", "R", "N0", "N", 0.1);
  b.element("supply.source", "V=", "v12i", "com", 12);
  b.element("supply.out", "R", "v12i", "v12", 0.5);

  const motorSwitch = b.states("motor-switch", ["off", "on"]);
  b.move(motorSwitch, "on", (m) => m.variable(motorOut));
  b.move(motorSwitch, "off", (m) => 1 - m.variable(motorOut));
  b.element("motor-switch.triac", "switch", "L", "motor-l", { on: 0.1 }, motorSwitch);
  const rotor = b.states("motor", ["still", "turning"]);
  const motor = b.element("motor.winding", "R", "motor-l", "N", { still: 60, turning: 230 }, rotor);
  b.move(rotor, "turning", (m) => Number(m.volts(motor) > 100), "seconds");
  b.move(rotor, "still", (m) => Number(m.volts(motor) < 50), "seconds");

  const driver = b.states("driver", ["off", "on"]);
  b.move(driver, "on", (m) => m.variable(heatOut));
  b.move(driver, "off", (m) => 1 - m.variable(heatOut));
  b.element("driver.transistor", "switch", "k1", "com", { on: 1 }, driver);
  const relay = b.states("relay", ["released", "pulled"]);
  const coil = b.element("relay.coil", "R", "v12", "k1", 400);
  const contact = b.element("relay.contact", "switch", "L", "heat-1", { pulled: 0.02 }, relay);
  b.move(relay, "pulled", (m) => Number(m.volts(coil) >= 8.4));
  b.move(relay, "released", (m) => Number(m.volts(coil) < 1.8));

  const heater = b.element("heater.coil", "R", "heat-1", "heat-2", 22);
  const air = b.world("air", (m) => m.state(rotor) * m.variable(airway), "seconds");
  const heaterAir = b.world(
    "heater-air",
    (m) => 20 + m.watts(heater) / (24 * Math.max(m.variable(air), 0.05)),
    "minutes",
    20,
  );
  const exhaust = b.world(
    "exhaust",
    (m) => 20 + (m.watts(heater) * 0.016) / Math.max(m.variable(air), 0.15),
    "minutes",
    20,
  );
  const cutOut = b.states("cut-out", ["shut", "open"]);
  b.element("cut-out.contact", "switch", "heat-2", "heat-3", { shut: 0.02 }, cutOut);
  b.move(cutOut, "open", (m) => Number(m.variable(heaterAir) > 155), "minutes");
  b.move(cutOut, "shut", (m) => Number(m.variable(heaterAir) < 130), "minutes");
  const oneShot = b.states("one-shot", ["whole", "blown"]);
  b.element("one-shot.link", "switch", "heat-3", "N", { whole: 0.02 }, oneShot);
  b.move(oneShot, "blown", (m) => Number(m.variable(heaterAir) > 180), "minutes", true);

  const doorShut = { says: "door", when: (m: { variable(index: number): number }) => m.variable(door) };
  b.step("plugged-in");
  b.step("turn", { needs: [doorShut], drives: [{ output: motorOut }] });
  const guard = (m: { variable(index: number): number; state(set: number): number }) =>
    Number(m.state(rotor) === 1 && m.variable(exhaust) < 75);
  b.step("heat", { needs: [doorShut], drives: [{ output: motorOut }, { output: heatOut, guard }] });
  b.condition("open-door", [{ variable: door, to: 0 }], "heat");
  const machine = b.build({ plugElements: [{ line, neutral, earth: -1 }] });
  return { machine, heater, motor, contact, relay, cutOut, oneShot, exhaust, airway, door };
}
