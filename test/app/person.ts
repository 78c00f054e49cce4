import type { Locator, Page } from "playwright-core";
import { type WrittenEvent, writtenAct, writtenAnswer } from "../../src/core/ledger/index.ts";
import type { PlanQuestion, PlanStep } from "../../src/core/plan/index.ts";
import { remediesIn } from "../../src/core/remedy/index.ts";
import type { Observation } from "../../src/core/sign/index.ts";
import type { JobView } from "../../src/shell/web/engine/protocol.ts";
import { headingOf, titleOf } from "../../src/shell/words/step.ts";
import type { DemoMachine } from "../machines/demo-machine.ts";
import { slow } from "./app.ts";
import { shownView } from "./shown-view.ts";

/** More steps than this no job of the demonstration may need. */
const MOST_STEPS = 25;

/** Steps that ask for nothing: a person who may choose takes another. */
const RESTFUL: ReadonlySet<string> = new Set(["stop", "talk"]);

type Verification = NonNullable<JobView["verification"]>;
type Item = Verification["items"][number];

/**
 * Somebody with the app in one hand and a machine before them: reads what the screen asks, asks the machine, types or presses
 * what it shows, does the remedy when the step is one, and goes on until the job is ended.
 */
export class Person {
  /** Titles of the steps and lists that were met, in order. */
  readonly met: string[] = [];
  /** Kinds of the events that the keys pressed were for. */
  readonly wrote: string[] = [];
  taps = 0;
  readonly #page: Page;
  readonly #machine: DemoMachine;
  #run = 0;

  constructor(page: Page, machine: DemoMachine) {
    this.#page = page;
    this.#machine = machine;
  }

  /** Works an open job, whose next step is shown, to its end as mended. */
  async work(): Promise<void> {
    for (let n = 0; n < MOST_STEPS; n++) {
      await this.#settled();
      const view = await shownView(this.#page);
      const title = (await this.#page.locator("#step").textContent()) ?? "";
      this.met.push(title);
      const { verification } = view;
      if (verification !== undefined && title === verification.title) {
        if (await this.#verify(verification)) return;
      } else await this.#take(this.#stepOf(view, title), view);
    }
    throw new Error(`${MOST_STEPS} steps and no end:\n${this.met.join("\n")}`);
  }

  /** Nothing is being worked out, and what is shown may be pressed. */
  async #settled(): Promise<void> {
    await this.#page.locator("#step").waitFor(slow);
    await this.#page
      .locator("fieldset:disabled")
      .first()
      .waitFor({ ...slow, state: "detached" });
    await this.#page.locator(".thinking:not(.on)").waitFor({ ...slow, state: "attached" });
  }

  #stepOf({ plan }: JobView, title: string): PlanStep {
    const step = plan.steps.find((one) => titleOf(one).title === title);
    if (step === undefined) throw new Error(`no step of the plan is called "${title}"`);
    return step;
  }

  async #press(key: Locator, ...events: readonly WrittenEvent[]): Promise<void> {
    await key.tap(slow);
    this.taps++;
    this.wrote.push(...events.map(({ kind }) => kind));
  }

  async #take(step: PlanStep, view: JobView): Promise<void> {
    const card = this.#page.locator("article.card");
    const ready = step.setUp.flatMap((act) => writtenAct(act) ?? []);
    if (RESTFUL.has(step.do)) {
      const other = view.plan.steps.find((one) => !RESTFUL.has(one.do) && one.do !== "verify");
      if (other === undefined) throw new Error(`nothing is left but "${step.says}":\n${this.met.join("\n")}`);
      await this.#press(this.#page.locator("button.line-key", { hasText: other.says }).first());
      return;
    }
    if (ready.length > 0) {
      if (ready.some(({ kind }) => kind === "energised")) this.#run++;
      await this.#press(card.getByRole("button", { name: "All of this is done" }), ...ready);
      return;
    }
    if (step.course !== undefined) return await this.#mend(step.course.id, card);
    if (step.questions.length > 0) return await this.#answer(step, card);
    throw new Error(`"${step.says}" asks nothing that can be answered`);
  }

  /** Does to the machine what the step says, and writes it down; whether it works is seen afterwards. */
  async #mend(course: string, card: Locator): Promise<void> {
    const remedies = remediesIn(course);
    for (const { id } of remedies) this.#machine.hidden.mend({ id });
    await this.#press(
      card.getByRole("button", { name: "Done, not tried yet" }),
      ...remedies.map(() => ({ kind: "did", body: {} })),
    );
  }

  async #answer(step: PlanStep, card: Locator): Promise<void> {
    let answers = 0;
    const words = step.questions.filter(({ observation }) => observation.kind !== "reading");
    const readings = step.questions.filter(({ observation }) => observation.kind === "reading");
    for (const [n, question] of words.entries()) {
      const answer = this.#machine.answered(question.observation, String(this.#run));
      if (answer === undefined) continue;
      answers++;
      const isLast = readings.length === 0 && n === words.length - 1;
      await this.#say(step, question, answer, card, isLast);
    }
    if (readings.length > 0 && (await this.#type(readings, card))) answers++;
    const asked = words.length + (readings.length > 0 ? 1 : 0);
    if (answers === 0) await this.#press(card.getByRole("button", { name: "Can't do that here" }), CANNOT);
    else if (answers < asked) await this.#press(card.getByRole("button", { name: "Enough: what comes next?" }));
  }

  /** Presses the key of an answer in words. */
  async #say(step: PlanStep, question: PlanQuestion, answer: string, card: Locator, isLast: boolean): Promise<void> {
    const { observation, says } = question;
    const isTitle = says === headingOf(step);
    const place = isTitle
      ? card.locator("section.question").first()
      : card.locator("section.question", { has: this.#page.getByRole("heading", { name: says, exact: true }) });
    const events = [writtenAnswer(observation, answer)];
    if (observation.kind === "count") return await this.#tally(place, answer, events);
    if (step.do === "why") events.push({ kind: answer === "bad" ? "why" : "cannot", body: {} });
    const key = place.locator("button", {
      has: this.#page.locator("span", { hasText: exactly(keyOf(observation, answer)) }),
    });
    if ((await key.count()) === 0) {
      const offered = await place.locator("button > span").allTextContents();
      throw new Error(`"${says}" takes ${offered.join(", ")}, and the machine shows "${answer}"`);
    }
    await this.#press(key, ...events);
    if (!isLast) await place.locator("button[aria-pressed=true]").waitFor(slow);
  }

  /** Counts operations with the two keys, as they come. */
  async #tally(place: Locator, answer: string, events: readonly WrittenEvent[]): Promise<void> {
    const [good = 0, of = 0] = answer.split(" of ").map(Number);
    for (let n = 0; n < of; n++) {
      await this.#press(place.getByRole("button", { name: n < good ? "Good" : "Failed", exact: true }));
    }
    await this.#press(place.getByRole("button", { name: "Write down" }), ...events);
  }

  /** Types what the meter shows, all readings in one go where each has one; false where the machine has none of them. */
  async #type(readings: readonly PlanQuestion[], card: Locator): Promise<boolean> {
    const shown = readings.map(({ observation }) => this.#machine.answered(observation, String(this.#run)));
    if (shown.every((one) => one === undefined)) return false;
    const inputs = card.locator(".reading-input");
    if (shown.includes(undefined)) {
      for (const [n, value] of shown.entries()) if (value !== undefined) await inputs.nth(n).fill(value);
    } else await inputs.first().fill(shown.join(" "));
    const events = readings.flatMap(({ observation }, n) => {
      const value = shown[n];
      return value === undefined ? [] : [writtenAnswer(observation, value)];
    });
    await this.#press(card.getByRole("button", { name: "Write down", exact: true }), ...events);
    return true;
  }

  /** Does the first thing on the list that is still to do; true once the job is ended. */
  async #verify(list: Verification): Promise<boolean> {
    const lines = this.#page.locator("ol.verify > li");
    for (const [n, item] of list.items.entries()) {
      const line = lines.nth(n);
      if (item.do === "act" && (await line.locator(".tick[aria-pressed=true]").count()) > 0) continue;
      await this.#settle(item, line);
      return false;
    }
    await this.#press(this.#page.getByRole("button", { name: "Mended and verified: end of the job" }), {
      kind: "closes",
      body: "mended",
    });
    await this.#page.getByRole("heading", { level: 1, name: "Mended and verified", exact: true }).waitFor(slow);
    return true;
  }

  async #settle(item: Item, line: Locator): Promise<void> {
    switch (item.do) {
      case "act":
        return await this.#press(line.locator(".tick"), { kind: "note", body: item.says });
      case "close":
        return await this.#press(line.locator(".tick"), { kind: "closed", body: item.access });
      case "see": {
        const answer = this.#known(item.asks);
        const key = line.getByRole("button", { name: answer, exact: true });
        return await this.#press(key, writtenAnswer(item.asks, answer));
      }
      case "read": {
        const shown = this.#known(item.asks);
        await line.locator(".reading-input").fill(shown);
        return await this.#press(line.getByRole("button", { name: "Write down" }), writtenAnswer(item.asks, shown));
      }
      case "count": {
        const of = Number(/^Work it (\d+) times/.exec(item.says)?.[1]);
        const answer = this.#known({ ...item.asks, of });
        return await this.#tally(line, answer, [writtenAnswer(item.asks, answer)]);
      }
    }
  }

  #known(asked: Observation): string {
    const answer = this.#machine.answered(asked, String(this.#run));
    if (answer === undefined)
      throw new Error(`the list asks what this machine does not have: ${JSON.stringify(asked)}`);
    return answer;
  }
}

const CANNOT: WrittenEvent = { kind: "cannot", body: {} };

function keyOf(observation: Observation, answer: string): string {
  if (observation.kind !== "look") return answer;
  return answer === "bad" ? "Bad" : "Looks good";
}

function exactly(words: string): RegExp {
  return new RegExp(`^${words.replace(/[.*+?^${}()|[\]\\]/g, "\\$&")}$`);
}
