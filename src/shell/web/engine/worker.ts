import { Engine } from "./engine.ts";
import type { Call, Reply } from "./protocol.ts";

let engine: Promise<Engine> | undefined;

/** Calls are answered one after the other, in the order they came. */
let answered = Promise.resolve();
self.onmessage = ({ data }: MessageEvent<Call>) => {
  answered = answered.then(() => answer(data));
};

async function answer({ id, ask, facts, own }: Call): Promise<void> {
  engine ??= fetch(facts).then(async (response) => new Engine(await response.json()));
  let reply: Reply;
  try {
    const thinking = await engine;
    thinking.layOver(own);
    reply = { id, ok: true, answer: await thinking.answer(ask) };
  } catch (error) {
    if (!(error instanceof Error)) throw error;
    reply = { id, ok: false, error: error.message };
  }
  self.postMessage(reply);
}
