import { usualProbes } from "../../src/core/predict/index.ts";
import { handheld, shippedCase } from "./shipped-case.ts";

/** A dryer whose every slot is known, with pairs of faults in play: what the laws of evidence are tried on. */
export const opened = shippedCase(
  "tumble-dryer",
  {
    air: "vented",
    stages: "one",
    protectors: "self-resetting and one-shot",
    "motor-watch": "running contact in the heater wire",
    control: "board with two heater poles",
    moisture: "bars in the drum",
  },
  { pairsAtMost: 1000 },
);
export const [{ machine }] = opened.candidates;
export const meter = handheld();
/** Ohms of it with the plug out. */
export const dead = usualProbes(machine)
  .map(({ probe }) => probe)
  .filter(({ quantity, state }) => quantity === "ohms" && state.kind === "dead");
