import type { Answers, Ask, Call, Reply } from "./protocol.ts";

interface Waiting {
  readonly resolve: (answer: Answers[Ask["do"]]) => void;
  readonly reject: (error: Error) => void;
}

let worker: Worker | undefined;
let count = 0;
const waiting = new Map<number, Waiting>();

/** Asks the engine, which thinks in a worker of its own: the screen never waits for it. */
export function askEngine<A extends Ask>(ask: A): Promise<Answers[A["do"]]> {
  worker ??= startWorker();
  const call: Call = { id: ++count, ask, facts: new URL("facts.json", document.baseURI).href };
  const answer = new Promise<Answers[Ask["do"]]>((resolve, reject) => waiting.set(call.id, { resolve, reject }));
  worker.postMessage(call);
  return answer as Promise<Answers[A["do"]]>;
}

function startWorker(): Worker {
  const started = new Worker(new URL("./worker.ts", import.meta.url), { type: "module" });
  started.onmessage = ({ data }: MessageEvent<Reply>) => {
    const one = waiting.get(data.id);
    waiting.delete(data.id);
    if (data.ok) one?.resolve(data.answer);
    else one?.reject(new Error(data.error));
  };
  // A worker that dies takes its questions with it; the next question starts a new one.
  started.onerror = (event) => {
    for (const { reject } of waiting.values()) reject(new Error(event.message));
    waiting.clear();
    started.terminate();
    worker = undefined;
  };
  return started;
}
