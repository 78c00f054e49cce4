import { ComplexNetwork, RealNetwork } from "../matrix/index.ts";
import { Adjoints } from "./adjoint.ts";
import type { Circuit, Shape } from "./circuit.ts";
import { layer } from "./layer.ts";
import { PathOhmmeter } from "./ohmmeter.ts";
import { ShortCurrents } from "./shorts.ts";
import { LayeredSolver } from "./solver.ts";
import { behindSupply, sourceGroups } from "./sources.ts";

/**
 * Makes the elimination schedules of a shape, once; every state, fault and reading then uses them.
 * Throws where the voltage sources form a loop.
 */
export function compile(shape: Shape): Circuit {
  const groups = sourceGroups(shape);
  const late = behindSupply(shape, groups);
  const layers = groups.map((group) =>
    layer(shape, {
      held: group.terminals,
      late,
      shorted: shape.sources.filter((_, source) => !group.sources.includes(source)),
      group,
    }),
  );
  if (layers.length === 0) layers.push(layer(shape, { held: [], late: [], shorted: [] }));
  const deadShorts = new Adjoints(shape, "short");
  const takenOut = new Adjoints(shape, "out");
  return {
    shape,
    ac: () =>
      new LayeredSolver(shape, layers, (on) => new ComplexNetwork(on.schedule), deadShorts, new ShortCurrents(shape)),
    dc: () =>
      new LayeredSolver(shape, layers, (on) => new RealNetwork(on.schedule), deadShorts, new ShortCurrents(shape)),
    ohmmeter: () => new PathOhmmeter(shape, layer(shape, { held: [], late: [], shorted: [] }), takenOut),
  };
}
