import { availableParallelism } from "node:os";
import { isMainThread, parentPort, Worker, workerData } from "node:worker_threads";
import {
  blockCount,
  type Played,
  playBlock,
  type Strategy,
  type TrialAsk,
  type WrongSheet,
} from "../../core/trial/index.ts";
import { sheetNamed, shippedLibrary, shippedMeters, shopNamed } from "./library.ts";

/** What is simulated, by names, so that it can be handed to another thread. */
export interface SimulationAsk {
  readonly sheet: string;
  readonly shop: string;
  readonly machines: number;
  readonly seed: string;
  readonly strategies: readonly Strategy[];
  readonly wrong?: WrongSheet;
}

/** Reads all that a simulation names; ends the command with every issue when something is wrong. */
export function trialOf({ sheet, shop, seed, strategies, wrong }: SimulationAsk): TrialAsk {
  const library = shippedLibrary();
  return {
    sheet: sheetNamed(sheet, library),
    library,
    shop: shopNamed(shop),
    meters: shippedMeters(),
    seed,
    strategies,
    ...(wrong === undefined ? {} : { wrong }),
  };
}

/** Threads that are used where nobody says how many. */
export function threadsAtHand(): number {
  return availableParallelism();
}

/** How this program is started again as a thread of its own, so that it hands out blocks of machines to itself. */
export function isPlayer(): boolean {
  return !isMainThread && (workerData as { readonly plays?: unknown } | null)?.plays !== undefined;
}

/** A thread that plays the blocks it is handed, one after the other. */
export function play(): void {
  const { plays: ask } = workerData as { readonly plays: SimulationAsk };
  const trial = trialOf(ask);
  parentPort?.on("message", (block: number) => parentPort?.postMessage(playBlock(trial, block, ask.machines)));
}

/**
 * Plays all machines on so many threads. What comes out does not depend on their number: a block is the same whoever
 * plays it.
 *
 * @param program  address of the file that starts this program; sources that are no JavaScript yet start no thread, so
 *                 from those all is played in this one
 * @param done     told how many machines are played, as they come
 */
export async function playAll(
  ask: SimulationAsk,
  threads: number,
  program: URL,
  done: (machines: number) => void,
): Promise<readonly Played[]> {
  const blocks = Array.from({ length: blockCount(ask.machines) }, (_, block) => block);
  const found: (readonly Played[])[] = [];
  let machines = 0;
  const keep = (block: number, played: readonly Played[]): void => {
    found[block] = played;
    machines += new Set(played.map(({ machine }) => machine)).size;
    done(machines);
  };
  if (threads === 1 || program.pathname.endsWith(".ts")) {
    const trial = trialOf(ask);
    for (const block of blocks) keep(block, playBlock(trial, block, ask.machines));
  } else {
    const left = blocks.values();
    const players = Math.min(threads, blocks.length);
    await Promise.all(Array.from({ length: players }, () => player(ask, program, left, keep)));
  }
  return found.flat();
}

/** Starts a thread and hands it blocks until none is left. */
function player(
  ask: SimulationAsk,
  program: URL,
  left: Iterator<number>,
  keep: (block: number, played: readonly Played[]) => void,
): Promise<void> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(program, { workerData: { plays: ask } });
    let block: number | undefined;
    const hand = (): void => {
      block = left.next().value;
      if (block === undefined) void worker.terminate().then(() => resolve());
      else worker.postMessage(block);
    };
    worker.on("error", reject);
    worker.on("message", (played: readonly Played[]) => {
      if (block !== undefined) keep(block, played);
      hand();
    });
    hand();
  });
}
