// Runs decks through the general circuit simulator (ngspice built as WebAssembly), in a process of its own since it
// prints to the console. Takes one message { decks: string[], repeat?: number }, answers one:
// { results: { name, re, im }[][], runMilliseconds } and ends.
import { Simulation } from "eecircuit-engine";

process.once("message", async ({ decks, repeat = 1 }) => {
  const simulation = new Simulation();
  await simulation.start();
  const results = [];
  let runMilliseconds = 0;
  for (let round = 0; round < repeat; round++) {
    for (const deck of decks) {
      simulation.setNetList(deck);
      const begun = process.cpuUsage();
      const { dataType, data } = await simulation.runSim();
      const { user, system } = process.cpuUsage(begun);
      runMilliseconds += (user + system) / 1e3;
      if (round > 0) continue;
      results.push(
        data.map(({ name, values: [first] }) =>
          dataType === "complex" ? { name, re: first.real, im: first.img } : { name, re: first, im: 0 },
        ),
      );
    }
  }
  process.send({ results, runMilliseconds }, () => process.exit(0));
});
