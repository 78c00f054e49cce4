import type { Issue } from "../../../core/issue/index.ts";
import { accept, type Checked, refuse } from "../../../core/issue/index.ts";
import { type Job, type JobGround, readJob } from "../../../core/ledger/index.ts";
import { type Meter, readMeter } from "../../../core/meter/index.ts";
import { readOwnShop, readShop, withOwnShop } from "../../../core/remedy/index.ts";
import { readSafetyRules, type SafetyRules } from "../../../core/safety/index.ts";
import { branchSheet, type Library, readLibrary, readSheet, type Sheet } from "../../../core/sheet/index.ts";

type Texts = Readonly<Record<string, string>>;

/** Everything that ships with the app, as texts by name. */
export interface FactTexts {
  readonly kinds: Texts;
  readonly houses: Texts;
  readonly pieces: Texts;
  readonly meters: Texts;
  readonly costs: Texts;
  readonly sheets: Texts;
  readonly lives: Texts;
  readonly duties: Texts;
  readonly safety: Texts;
  readonly examples: Texts;
}

const map = (texts: Texts): ReadonlyMap<string, string> => new Map(Object.entries(texts));

/** The shipped facts, each read when first asked for, and kept. */
export class Facts {
  readonly texts: FactTexts;
  /** The shop's own words, laid over the cost file of every job. */
  own: string | undefined;
  readonly #sheets = new Map<string, Checked<Sheet>>();
  readonly #rules = new Map<string, SafetyRules>();
  #library: Library | undefined;
  #meters: ReadonlyMap<string, Meter> | undefined;

  constructor(texts: FactTexts) {
    this.texts = texts;
  }

  get library(): Library {
    this.#library ??= shipped(readLibrary(map(this.texts.kinds), map(this.texts.houses), map(this.texts.pieces)));
    return this.#library;
  }

  get meters(): ReadonlyMap<string, Meter> {
    this.#meters ??= new Map(Object.entries(this.texts.meters).map(([id, text]) => [id, shipped(readMeter(text, id))]));
    return this.#meters;
  }

  /** A rule set of safety tests by its id; none where none of that id ships. */
  readonly rulesOf = (id: string): SafetyRules | undefined => {
    const text = this.texts.safety[id];
    if (text === undefined) return undefined;
    const rules = this.#rules.get(id) ?? shipped(readSafetyRules(text, id));
    this.#rules.set(id, rules);
    return rules;
  };

  /** Every rule set that ships. */
  ruleSets(): readonly SafetyRules[] {
    return Object.keys(this.texts.safety).flatMap((id) => this.rulesOf(id) ?? []);
  }

  sheet(name: string): Checked<Sheet> {
    let sheet = this.#sheets.get(name);
    if (sheet === undefined) {
      const text = this.texts.sheets[name];
      sheet = text === undefined ? refuse(unknown("sheet.unknown", name)) : readSheet(text, name, this.library);
      this.#sheets.set(name, sheet);
    }
    return sheet;
  }

  branch(kinds: string): Checked<Sheet> {
    let sheet = this.#sheets.get(kinds);
    if (sheet === undefined) {
      sheet = branchSheet(kinds, this.library);
      this.#sheets.set(kinds, sheet);
    }
    return sheet;
  }

  /** A job's text, and everything it names. */
  job(text: string): Checked<{ readonly job: Job; readonly ground: JobGround }> {
    const job = readJob(text);
    if (!job.ok) return job;
    const sheet =
      job.value.sheet.kind === "branch" ? this.branch(job.value.sheet.kinds) : this.sheet(job.value.sheet.name);
    if (!sheet.ok) return sheet;
    const costs = this.texts.costs[job.value.shop];
    if (costs === undefined) return refuse(unknown("shop.unknown", job.value.shop));
    const shop = readShop(costs, job.value.shop);
    if (!shop.ok) return shop;
    const own = this.own === undefined ? undefined : readOwnShop(this.own);
    if (own?.ok === false) return own;
    return accept({
      job: job.value,
      ground: {
        sheet: sheet.value,
        library: this.library,
        shop: own === undefined ? shop.value : withOwnShop(shop.value, own.value),
        meters: this.meters,
      },
    });
  }
}

/** What ships was checked before it shipped: a fault in it is ours. */
function shipped<T>(checked: Checked<T>): T {
  if (!checked.ok) throw new Error(`shipped facts are faulty: ${JSON.stringify(checked.issues[0])}`);
  return checked.value;
}

function unknown(code: string, name: string): Issue {
  return { code, severity: "error", at: [], found: `"${name}"`, expected: "a name that ships with the app" };
}
