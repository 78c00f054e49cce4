import { Engine } from "./engine.ts";
import { digest, KeptViews } from "./kept-views.ts";
import type { Answers, Ask, Call, Reply } from "./protocol.ts";

let engine: Promise<Engine> | undefined;
let kept: Promise<KeptViews | undefined> | undefined;

/** Calls are answered one after the other, in the order they came. */
let answered = Promise.resolve();
self.onmessage = ({ data }: MessageEvent<Call>) => {
  answered = answered.then(() => answer(data));
};

async function answer({ id, ask, facts, own }: Call): Promise<void> {
  if (engine === undefined) {
    const written = fetch(facts).then((response) => response.text());
    engine = written.then((text) => new Engine(JSON.parse(text)));
    kept = written.then(keptViews);
  }
  let reply: Reply;
  try {
    const known = await recalled(ask, own);
    const thinking = await engine;
    thinking.layOver(own);
    reply = { id, ok: true, answer: known ?? (await thinking.answer(ask)) };
    if (known === undefined) keepView(ask, own, reply.answer);
  } catch (error) {
    if (!(error instanceof Error)) throw error;
    reply = { id, ok: false, error: error.message };
  }
  self.postMessage(reply);
}

/** The views of this build; its script is named by what is in it, save while it is being written. */
async function keptViews(facts: string): Promise<KeptViews | undefined> {
  const known = import.meta.env.DEV ? undefined : await digest(facts);
  return known === undefined ? undefined : new KeptViews(`${import.meta.url} ${known}`);
}

/** What was answered to it before the app was last closed; the engine has yet to be woken for what comes next. */
async function recalled(ask: Ask, own: string | undefined): Promise<Answers["work out"] | Answers["odds"]> {
  const views = await kept;
  if (views === undefined || (ask.do !== "work out" && ask.do !== "odds")) return undefined;
  // The odds are the same wherever one stands.
  for (const where of ask.do === "work out" ? [ask.where] : (["machine", "telephone"] as const)) {
    const view = await views.of({ do: "work out", text: ask.text, where }, own).catch(() => undefined);
    if (view !== undefined) return ask.do === "odds" ? view.belief : { ok: true, view };
  }
  return undefined;
}

function keepView(ask: Ask, own: string | undefined, answer: Answers[Ask["do"]]): void {
  if (ask.do !== "work out" || typeof answer !== "object" || !("ok" in answer) || !answer.ok) return;
  kept
    ?.then((views) => views?.keep(ask, own, (answer as Answers["work out"] & { ok: true }).view))
    .catch(() => undefined);
}
