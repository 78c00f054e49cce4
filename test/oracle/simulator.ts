import { fork } from "node:child_process";
import { fileURLToPath } from "node:url";

/** Node (or `i(v1)` for the current through a source) → its value in one run. */
export type Simulated = ReadonlyMap<string, { readonly re: number; readonly im: number }>;

interface Reply {
  readonly results: readonly (readonly { readonly name: string; readonly re: number; readonly im: number }[])[];
  readonly runMilliseconds: number;
}

/**
 * Runs decks, each with one analysis card, through the general circuit simulator in a child process; each deck `repeat`
 * times. `runMilliseconds` is the processor time of the runs alone, without the start of the simulator.
 */
export async function simulate(
  decks: readonly string[],
  repeat = 1,
): Promise<{ readonly results: Simulated[]; readonly runMilliseconds: number }> {
  const child = fork(fileURLToPath(new URL("./simulator-process.mjs", import.meta.url)), {
    stdio: ["ignore", "ignore", "ignore", "ipc"],
  });
  const reply = await new Promise<Reply>((resolve, reject) => {
    child.once("message", (message) => resolve(message as Reply));
    child.once("error", reject);
    child.once("exit", (code) => reject(new Error(`the simulator ended with code ${code} and no answer`)));
    child.send({ decks, repeat });
  });
  const results = reply.results.map((rows) => new Map(rows.map(({ name, re, im }) => [name, { re, im }])));
  return { results, runMilliseconds: reply.runMilliseconds };
}

/** A deck of ours with one analysis for the simulator: its operating point, or AC at one frequency. */
export function withAnalysis(deck: string, hertz?: number): string {
  const card = hertz === undefined ? ".op" : `.ac lin 1 ${hertz} ${hertz}`;
  return deck.replace(/\.end\n$/, `${card}\n.end\n`);
}
