import { seeded } from "../../../core/chance/index.ts";
import type { WrittenEvent } from "../../../core/ledger/index.ts";
import { writtenEvents } from "../../../core/ledger/index.ts";
import { drawPractice, drawType, type Practice, practise, touchesMachine } from "../../../core/practice/index.ts";
import { readShop } from "../../../core/remedy/index.ts";
import { byPlan } from "../../../core/trial/index.ts";
import { hiddenInWords, historyLines, sumsOf } from "../../words/practice-account.ts";
import { dangerInWords, obstacleInWords } from "../../words/practice-dangers.ts";
import type { Facts } from "./facts.ts";
import type { PracticeBegun, PracticeEnd, PracticeSaid } from "./protocol.ts";

/** A learner's machine as far as it was worked on. */
interface Standing {
  readonly key: string;
  readonly practice: Practice;
  /** How many of the job's acts were done to it. */
  done: number;
}

/** Machines with a hidden fault: the one in hand is kept, and made again from its seed and its acts where it is not. */
export class PracticeDesk {
  readonly #facts: Facts;
  #standing: Standing | undefined;

  constructor(facts: Facts) {
    this.#facts = facts;
  }

  begin(sheet: string, seed: string): PracticeBegun {
    const practice = this.#draw(sheet, seed);
    const { machine } = practice.desk;
    const told = practice.events.flatMap((event) => (event.kind === "told" ? event.answers : []));
    const asks = new Map(machine.signs.map(({ id, ask }) => [id, ask]));
    return {
      answers: Object.fromEntries(machine.choice),
      complaint: told.map(({ sign, answer }) => `${asks.get(sign) ?? sign} ${answer}`).join(" "),
      events: practice.events.flatMap(writtenEvents),
    };
  }

  /** @param acts  what was done before, each as it was written down */
  say(
    sheet: string,
    seed: string,
    acts: readonly (readonly WrittenEvent[])[],
    asked: readonly WrittenEvent[],
  ): PracticeSaid {
    const touched = asked.some(touchesMachine);
    if (!touched) return { touched, events: asked, told: [] };
    const standing = this.#stand(sheet, seed, acts);
    const { events, refused } = practise(standing.practice, asked);
    standing.done++;
    if (refused === undefined) return { touched, events, told: [] };
    const { machine } = standing.practice.desk;
    const told =
      refused.kind === "danger"
        ? dangerInWords(refused.danger, refused.of, machine)
        : [obstacleInWords(refused.obstacle, machine)];
    return { touched, events, told };
  }

  end(
    sheet: string,
    seed: string,
    acts: readonly (readonly WrittenEvent[])[],
    ended: "mended" | "stopped",
  ): PracticeEnd {
    const { practice } = this.#stand(sheet, seed, acts);
    const { machine, shop } = practice.desk;
    const yours = practice.end(ended);
    const plan = practice.followed(byPlan());
    const theirs = sumsOf(plan, shop.currency);
    return {
      hidden: hiddenInWords(practice.truth.drawn),
      yours: historyLines(yours, machine),
      plan: historyLines(plan, machine),
      sums: sumsOf(yours, shop.currency).map(([says, value], n) => ({ says, yours: value, plan: theirs[n][1] })),
    };
  }

  #stand(sheet: string, seed: string, acts: readonly (readonly WrittenEvent[])[]): Standing {
    const key = `${sheet} ${seed}`;
    let standing = this.#standing;
    if (standing?.key !== key || standing.done !== acts.length) {
      standing = { key, practice: this.#draw(sheet, seed), done: 0 };
      for (const act of acts) practise(standing.practice, act);
      standing.done = acts.length;
      this.#standing = standing;
    }
    return standing;
  }

  #draw(name: string, seed: string): Practice {
    const sheet = this.#facts.sheet(name);
    const shop = readShop(this.#facts.texts.costs["demo-shop"] ?? "", "demo-shop");
    if (!sheet.ok || !shop.ok) throw new Error(`the shipped sheet ${name} is faulty`);
    const { library, meters } = this.#facts;
    const random = seeded(seed);
    const type = drawType({ sheet: sheet.value, library, shop: shop.value, meters }, random);
    const practice = drawPractice(type, shop.value, random);
    if (practice === undefined) throw new Error(`${name} has no fault that anybody would call about`);
    return practice;
  }
}
