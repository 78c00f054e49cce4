import type { Answers, Ask, Call, Reply } from "./protocol.ts";

/** The question was replaced by a newer one before the engine came to it. */
export class Replaced extends Error {}

interface Waiting {
  readonly ask: Ask;
  /** A newer question of the same topic takes this one's place while it waits. */
  readonly topic: string | undefined;
  readonly resolve: (answer: Answers[Ask["do"]]) => void;
  readonly reject: (error: Error) => void;
}

let worker: Worker | undefined;
let count = 0;
let asked: Waiting | undefined;
let queue: Waiting[] = [];
/** Jobs to be made ready while nothing is asked, as their texts, the first of them first. */
let ahead: readonly string[] = [];
let own: string | undefined;

/** What the shop says of itself on this device: the engine lays it over the cost file of every job from now on. */
export function tellOwnShop(words: object | undefined): void {
  own = words === undefined ? undefined : JSON.stringify(words);
}

/**
 * Asks the engine, which thinks in a worker of its own: the screen never waits for it.
 *
 * @param topic  what the question is about; while it waits its turn, a newer one of the same topic replaces it, and this
 *               one is rejected with `Replaced`
 */
export function askEngine<A extends Ask>(ask: A, topic?: string): Promise<Answers[A["do"]]> {
  const answer = new Promise<Answers[Ask["do"]]>((resolve, reject) => {
    for (const old of queue) if (topic !== undefined && old.topic === topic) old.reject(new Replaced());
    queue = queue.filter((old) => topic === undefined || old.topic !== topic);
    queue.push({ ask, topic, resolve, reject });
  });
  askNext();
  return answer as Promise<Answers[A["do"]]>;
}

/** Has the engine work at these jobs while it is asked nothing, instead of those named before: one of them may be opened. */
export function makeReady(texts: readonly string[]): void {
  ahead = texts;
  askNext();
}

/** A little more work at the first job that is to be made ready. */
function readying(): Waiting | undefined {
  const [text] = ahead;
  if (text === undefined) return undefined;
  const done = () => {
    ahead = ahead.filter((other) => other !== text);
  };
  const resolve = (isReady: Answers[Ask["do"]]) => {
    if (isReady === true) done();
  };
  return { ask: { do: "make ready", text }, topic: undefined, resolve, reject: done };
}

function askNext(): void {
  if (asked !== undefined) return;
  asked = queue.shift() ?? readying();
  if (asked === undefined) return;
  worker ??= startWorker();
  const call: Call = {
    id: ++count,
    ask: asked.ask,
    facts: new URL("facts.json", document.baseURI).href,
    ...(own === undefined ? {} : { own }),
  };
  worker.postMessage(call);
}

function startWorker(): Worker {
  const started = new Worker(new URL("./worker.ts", import.meta.url), { type: "module" });
  started.onmessage = ({ data }: MessageEvent<Reply>) => {
    const one = asked;
    asked = undefined;
    if (data.ok) one?.resolve(data.answer);
    else one?.reject(new Error(data.error));
    askNext();
  };
  // A worker that dies takes its question with it; the next question starts a new one.
  started.onerror = (event) => {
    const one = asked;
    asked = undefined;
    started.terminate();
    worker = undefined;
    one?.reject(new Error(event.message));
    askNext();
  };
  return started;
}
