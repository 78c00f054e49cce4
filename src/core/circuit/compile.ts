import { ComplexNetwork, RealNetwork } from "../matrix/index.ts";
import { Adjoints } from "./adjoint.ts";
import type { Circuit, Guard, Shape } from "./circuit.ts";
import { type Layer, layer, sourceLayers } from "./layer.ts";
import { PathOhmmeter } from "./ohmmeter.ts";
import { LayeredSolver } from "./solver.ts";

/** A picovolt is nothing to any meter; below it a reading need not be exact. */
export const tableGuard: Guard = { relative: 1e-9, floorVolts: 1e-12 };
/** Nothing but the exact answer. */
export const strictGuard: Guard = { relative: 1e-9, floorVolts: 0 };

/**
 * Makes the elimination schedules of a shape, once; every state, fault and reading then uses them.
 * Throws where the voltage sources form a loop.
 */
export function compile(shape: Shape): Circuit {
  const layers = sourceLayers(shape);
  const complexOn = (on: Layer): ComplexNetwork => new ComplexNetwork(on.schedule);
  const realOn = (on: Layer): RealNetwork => new RealNetwork(on.schedule);
  const sourcesDead = new Adjoints(shape, "short", complexOn);
  const sourcesOut = new Adjoints(shape, "out", realOn);
  return {
    shape,
    ac: (guard = tableGuard) => new LayeredSolver(shape, layers, complexOn, sourcesDead, guard),
    dc: (guard = tableGuard) => new LayeredSolver(shape, layers, realOn, sourcesDead, guard),
    ohmmeter: () => new PathOhmmeter(shape, layer(shape, { held: [], late: [], shorted: [] }), sourcesOut),
  };
}
