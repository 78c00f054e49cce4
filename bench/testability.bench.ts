// npx tsx bench/testability.bench.ts — how much of what can fail on the dryer is detected and isolated, and how long it takes.
import { modesOf } from "../src/core/fault/index.ts";
import { instrumentFor } from "../src/core/plan/index.ts";
import {
  handheldProbes,
  Predictor,
  probeTests,
  type Test,
  testability,
  usualProbes,
} from "../src/core/predict/index.ts";
import { foreseeing, signTests } from "../src/core/suspect/index.ts";
import { shippedMeters } from "../src/shell/cli/library.ts";
import { shippedMachine } from "../test/machines/shipped.ts";
import { promise } from "./promise.ts";

const machine = shippedMachine("tumble-dryer");
const meters = shippedMeters();
const regimes = ["in full", "never live by hand", "nothing opened"] as const;

function whole() {
  const predictor = new Predictor(machine, modesOf(machine));
  const tests: readonly Test[] = [
    ...probeTests(predictor, [...usualProbes(machine), ...handheldProbes(machine)], (quantity) =>
      instrumentFor(quantity, [], meters),
    ),
    ...signTests(foreseeing(machine, predictor)),
  ];
  return regimes.map((regime) => testability(predictor.atoms, tests, regime));
}

const times = Array.from({ length: 3 }, () => {
  const begun = process.cpuUsage();
  whole();
  const { user, system } = process.cpuUsage(begun);
  return (user + system) / 1e3;
});
const percent = (share: number): string => `${(100 * share).toFixed(0)} %`;
for (const found of whole()) {
  console.log(
    `${found.regime}: ${found.tests} tests, ${found.faults} faults; detected ${percent(found.detected)} counted, ` +
      `${percent(found.detectedByShare)} by share (${percent(found.detectedThroughout)} of modes at every severity); ` +
      `isolated to 1, 2, 3 things ${found.isolatedTo.map(percent).join(", ")} by share, ` +
      `${found.isolatedCounted.map(percent).join(", ")} counted; mean group ${found.meanGroup.toFixed(1)} by share, ` +
      `${found.meanGroupCounted.toFixed(1)} counted; ${found.unseen.length} faults unseen`,
  );
  if (found.blind.length > 0) console.log(`  nothing shows: ${found.blind.join("; ")}`);
}
promise({ what: "testability of the dryer, first time", measured: times[0], unit: "ms", atMost: 5000 });
