import { exampleFile } from "../jobs/example-job.ts";
import { Engine } from "./engine.ts";
import type { FactTexts } from "./facts.ts";
import { digest, KeptViews } from "./kept-views.ts";
import type { Answers, Ask, Call, JobView, Reply } from "./protocol.ts";
import { readView } from "./view-file.ts";

type Again = Ask & { readonly do: "work out" };

let engine: Promise<Engine> | undefined;
let kept: Promise<KeptViews | undefined> | undefined;
/** Where the view of a job is that was worked out when the app was built, by its job file. */
let ahead: Promise<ReadonlyMap<string, string>> | undefined;

/** Calls are answered one after the other, in the order they came. */
let answered = Promise.resolve();
self.onmessage = ({ data }: MessageEvent<Call>) => {
  answered = answered.then(() => answer(data));
};

async function answer({ id, ask, facts, own }: Call): Promise<void> {
  if (engine === undefined) {
    const written = fetch(facts).then((response) => response.text());
    const texts = written.then((text): FactTexts => JSON.parse(text));
    engine = texts.then((known) => new Engine(known));
    kept = written.then(keptViews);
    ahead = texts.then(({ examples }) => viewsAhead(examples, facts));
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
  if (ask.do !== "work out" && ask.do !== "odds") return undefined;
  const views = await kept;
  // The odds are the same wherever one stands.
  for (const where of ask.do === "work out" ? [ask.where] : (["machine", "telephone"] as const)) {
    const again = { do: "work out", text: ask.text, where } as const;
    const view = (await views?.of(again, own).catch(() => undefined)) ?? (await builtAhead(again, own));
    if (view !== undefined) return ask.do === "odds" ? view.belief : { ok: true, view };
  }
  return undefined;
}

function viewsAhead(examples: FactTexts["examples"], facts: string): ReadonlyMap<string, string> {
  const places = Object.entries(examples).map(
    ([name, text]) => [exampleFile(text), new URL(`ahead/${name}.json`, facts).href] as const,
  );
  return new Map(import.meta.env.DEV ? [] : places);
}

/** The view of a job of the demonstration as it ships with the app; a shop of one's own has costs of its own. */
async function builtAhead({ text, where }: Again, own: string | undefined): Promise<JobView | undefined> {
  const place = own === undefined && where === "machine" ? (await ahead)?.get(text) : undefined;
  if (place === undefined) return undefined;
  const response = await fetch(place);
  return response.ok ? readView(await response.text()) : undefined;
}

function keepView(ask: Ask, own: string | undefined, answer: Answers[Ask["do"]]): void {
  if (ask.do !== "work out" || typeof answer !== "object" || !("ok" in answer) || !answer.ok) return;
  kept
    ?.then((views) => views?.keep(ask, own, (answer as Answers["work out"] & { ok: true }).view))
    .catch(() => undefined);
}
