import type { Locator, Page } from "playwright-core";
import { writtenAct, writtenAnswer } from "../../src/core/ledger/index.ts";
import type { PlanQuestion, PlanStep } from "../../src/core/plan/index.ts";
import { remediesIn } from "../../src/core/remedy/index.ts";
import type { Observation } from "../../src/core/sign/index.ts";
import type { JobView } from "../../src/shell/web/engine/protocol.ts";
import { headingOf, titleOf } from "../../src/shell/words/step.ts";
import type { DemoMachine } from "../machines/demo-machine.ts";
import { slow } from "./app.ts";
import { Keys } from "./keys.ts";
import { shownJob } from "./shown-view.ts";
import { leaveMended, makeTests } from "./way-out.ts";

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
  readonly keys: Keys;
  readonly #page: Page;
  readonly #machine: DemoMachine;
  /** Titles of the steps and lists that were met, in order. */
  readonly #met: string[] = [];
  #run = 0;

  constructor(page: Page, machine: DemoMachine) {
    this.keys = new Keys(page);
    this.#page = page;
    this.#machine = machine;
  }

  /** Works an open job, whose next step is shown, to its end as mended. */
  async work(): Promise<void> {
    for (let n = 0; n < MOST_STEPS; n++) {
      await this.#page.locator("#step").waitFor(slow);
      await this.keys.settled();
      const view = await shownJob(this.#page);
      const title = (await this.#page.locator("#step").textContent()) ?? "";
      this.#met.push(title);
      const { verification } = view;
      if (verification !== undefined && title === verification.title) {
        if (await this.#verify(verification)) return;
      } else await this.#take(this.#stepOf(view, title), view);
    }
    throw new Error(`${MOST_STEPS} steps and no end:\n${this.#met.join("\n")}`);
  }

  #stepOf({ plan }: JobView, title: string): PlanStep {
    const step = plan.steps.find((one) => titleOf(one).title === title);
    if (step === undefined) throw new Error(`no step of the plan is called "${title}"`);
    return step;
  }

  async #take(step: PlanStep, view: JobView): Promise<void> {
    const card = this.#page.locator("article.card");
    const ready = step.setUp.flatMap((act) => writtenAct(act) ?? []);
    if (RESTFUL.has(step.do)) {
      const other = view.plan.steps.find((one) => !RESTFUL.has(one.do) && one.do !== "verify");
      if (other === undefined) throw new Error(`nothing is left but "${step.says}":\n${this.#met.join("\n")}`);
      await this.keys.press(this.#page.locator("button.line-key", { hasText: other.says }).first());
      return;
    }
    if (ready.length > 0) {
      if (ready.some(({ kind }) => kind === "energised")) this.#run++;
      await this.keys.press(
        card.getByRole("button", { name: "All of this is done" }),
        ...ready.map(({ kind }) => kind),
      );
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
    await this.keys.press(card.getByRole("button", { name: "Done, not tried yet" }), ...remedies.map(() => "did"));
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
    if (answers === 0) await this.keys.press(card.getByRole("button", { name: "Can't do that here" }), "cannot");
    else if (answers < asked) await this.keys.press(card.getByRole("button", { name: "Enough: what comes next?" }));
  }

  /** Presses the key of an answer in words. */
  async #say(step: PlanStep, question: PlanQuestion, answer: string, card: Locator, isLast: boolean): Promise<void> {
    const { observation, says } = question;
    const isTitle = says === headingOf(step);
    const place = isTitle
      ? card.locator("section.question").first()
      : card.locator("section.question", { has: this.#page.getByRole("heading", { name: says, exact: true }) });
    const { kind } = writtenAnswer(observation, answer);
    if (observation.kind === "count") return await this.#tally(place, answer, kind);
    const kinds = step.do === "why" ? [kind, answer === "bad" ? "why" : "cannot"] : [kind];
    const key = place.locator("button", {
      has: this.#page.locator("span", { hasText: exactly(keyOf(observation, answer)) }),
    });
    if ((await key.count()) === 0) {
      const offered = await place.locator("button > span").allTextContents();
      throw new Error(`"${says}" takes ${offered.join(", ")}, and the machine shows "${answer}"`);
    }
    await this.keys.press(key, ...kinds);
    if (!isLast) await place.locator("button[aria-pressed=true]").waitFor(slow);
  }

  /** Counts operations with the two keys, as they come. */
  async #tally(place: Locator, answer: string, kind: string): Promise<void> {
    const [good = 0, of = 0] = answer.split(" of ").map(Number);
    for (let n = 0; n < of; n++) {
      await this.keys.press(place.getByRole("button", { name: n < good ? "Good" : "Failed", exact: true }));
    }
    await this.keys.press(place.getByRole("button", { name: "Write down" }), kind);
  }

  /** Types what the meter shows, all readings in one go where each has one; false where the machine has none of them. */
  async #type(readings: readonly PlanQuestion[], card: Locator): Promise<boolean> {
    const shown = readings.map(({ observation }) => this.#machine.answered(observation, String(this.#run)));
    if (shown.every((one) => one === undefined)) return false;
    const inputs = card.locator(".reading-input");
    if (shown.includes(undefined)) {
      for (const [n, value] of shown.entries()) if (value !== undefined) await inputs.nth(n).fill(value);
    } else await inputs.first().fill(shown.join(" "));
    const kinds = shown.flatMap((value) => (value === undefined ? [] : ["measured"]));
    const next = card.getByRole("button", { name: "Next", exact: true });
    while ((await next.count()) > 0) await this.keys.press(next);
    await this.keys.press(card.getByRole("button", { name: "Write down", exact: true }), ...kinds);
    return true;
  }

  /** Does the first thing on the list that is still to do; true once the job is ended. */
  async #verify(list: Verification): Promise<boolean> {
    const lines = this.#page.locator("ol.verify > li");
    for (const [n, item] of list.items.entries()) {
      const line = lines.nth(n);
      if ((await line.locator(".tick[aria-pressed=true]").count()) > 0) continue;
      // The tests that come last are made where the way out begins.
      if (item.do === "test" && !list.isUntouched && list.mayEnergise) continue;
      await this.#settle(item, line);
      return false;
    }
    if (list.isUntouched) {
      await this.keys.press(this.#page.getByRole("button", { name: "Mended and verified: end of the job" }), "closes");
    } else {
      await this.#page.getByRole("link", { name: "Tested after repair, and close-out" }).tap();
      await makeTests(this.keys, this.#machine, "the end");
      await leaveMended(this.keys);
    }
    await this.#page.getByRole("heading", { level: 1, name: "Mended and verified", exact: true }).waitFor(slow);
    return true;
  }

  async #settle(item: Item, line: Locator): Promise<void> {
    const { keys } = this;
    switch (item.do) {
      case "act":
        return await keys.press(line.locator(".tick"), "note");
      case "energise":
        this.#run++;
        return await keys.press(line.locator(".tick"), "energised");
      case "close":
        return await keys.press(line.locator(".tick"), ...(item.items.length === 0 ? [] : ["ticked"]), "closed");
      case "back":
        return await keys.press(line.locator(".tick"), "ticked");
      case "test": {
        const way = line.getByRole("link", { name: "Tested after repair" });
        if ((await way.count()) === 0) return await keys.press(line.locator(".tick"), "note");
        await way.tap();
        await makeTests(keys, this.#machine, "energising");
        return await this.#page.getByRole("link", { name: "‹ Job", exact: true }).tap();
      }
      case "see": {
        const answer = this.#known(item.asks);
        const key = line.getByRole("button", { name: answer, exact: true });
        return await keys.press(key, writtenAnswer(item.asks, answer).kind);
      }
      case "read": {
        await line.locator(".reading-input").fill(this.#known(item.asks));
        return await keys.press(line.getByRole("button", { name: "Write down" }), "measured");
      }
      case "count": {
        const of = Number(/^Work it (\d+) times/.exec(item.says)?.[1]);
        return await this.#tally(line, this.#known({ ...item.asks, of }), "counted");
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

function keyOf(observation: Observation, answer: string): string {
  if (observation.kind !== "look") return answer;
  return answer === "bad" ? "Bad" : "Looks good";
}

function exactly(words: string): RegExp {
  return new RegExp(`^${words.replace(/[.*+?^${}()|[\]\\]/g, "\\$&")}$`);
}
