import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import type { Checked } from "../../src/core/issue/index.ts";
import { type CloseOut, closeOutOf, closingOf, readJob, type WorkedJob, workOut } from "../../src/core/ledger/index.ts";
import type { Currency } from "../../src/core/money/index.ts";
import {
  type MadePaper,
  makePaper,
  type Paper,
  type PaperKind,
  paperFacts,
  shelfTagOf,
} from "../../src/core/paper/index.ts";
import { readSafetyRules } from "../../src/core/safety/index.ts";
import { readShipped } from "../rows/dryer.ts";
import { meters, must, shop } from "../rows/jobs.ts";

type JobPaper = Exclude<PaperKind, "tag">;
type Asked = { readonly number?: string; readonly date?: string; readonly why?: string };

const families = new Map<string, ReturnType<typeof readShipped>>();
const outs = new WeakMap<WorkedJob, CloseOut>();
const kept = new Map<string, WorkedJob>();

export function sha256(text: string): string {
  return createHash("sha256").update(text, "utf8").digest("hex");
}

/** The text of an example, with more events behind its own. */
export function closedJob(name: string, ...more: readonly string[]): string {
  const text = readFileSync(new URL(`../../examples/closed/${name}.yaml`, import.meta.url), "utf8").trimEnd();
  return [text, ...more.map((event) => `  - ${event}`), ""].join("\n");
}

/** A job worked out, once for each text and currency. */
export function workedJob(text: string, currency?: Currency): WorkedJob {
  const key = `${currency} ${text}`;
  const found = kept.get(key);
  if (found !== undefined) return found;
  const job = must(readJob(text));
  const family = job.sheet.kind === "family" ? job.sheet.name : "";
  const ground = families.get(family) ?? readShipped(family);
  families.set(family, ground);
  const trading = shop.trading;
  const ours =
    currency === undefined || trading === undefined
      ? shop
      : { ...shop, currency, trading: { ...trading, currency, step: currency === "CHF" ? 5 : 1 } };
  const worked = must(workOut(job, { ...ground, shop: ours, meters }));
  kept.set(key, worked);
  return worked;
}

export const rulesOf = (id: string) =>
  must(readSafetyRules(readFileSync(`data/safety/${id}.yaml`, "utf8"), `${id}.yaml`));

export function madeFrom(worked: WorkedJob, kind: JobPaper, asked: Asked = {}): Checked<MadePaper> {
  const closing = closingOf(worked, rulesOf);
  const id = closing.safety?.setting.rules;
  const rules = id === undefined ? undefined : rulesOf(id);
  const out = outs.get(worked) ?? closeOutOf(worked, closing, rules);
  outs.set(worked, out);
  const numbered = {
    date: asked.date ?? worked.job.date ?? "2026-03-04",
    ...(asked.number === undefined ? {} : { number: asked.number }),
  };
  const facts = paperFacts(worked, { closing, out, ...(rules === undefined ? {} : { rules }) }, numbered);
  return makePaper(kind, facts, asked);
}

/** Every sample by its file's name. */
export function samplePapers(): ReadonlyMap<string, Paper> {
  const mended = workedJob(closedJob("dryer-mended"));
  const dangerous = workedJob(closedJob("washer-dangerous"));
  const waiting = workedJob(closedJob("dryer-waiting"));
  const bad = workedJob(closedJob("dryer-part-bad"));
  const paper = (worked: WorkedJob, kind: JobPaper, asked?: Asked): Paper => must(madeFrom(worked, kind, asked)).paper;
  return new Map([
    ["report", paper(mended, "report")],
    ["report-left-waiting", paper(waiting, "report")],
    ["report-dangerous", paper(dangerous, "report")],
    ["safety", paper(mended, "safety")],
    ["safety-failed", paper(dangerous, "safety")],
    ["quote", paper(mended, "quote", { number: "Q-0012" })],
    ["invoice", paper(mended, "invoice", { number: "F-0007" })],
    ["invoice-long-pounds", paper(longJob("GBP"), "invoice", { number: "F-0008" })],
    ["invoice-francs", paper(workedJob(closedJob("dryer-mended"), "CHF"), "invoice", { number: "F-0009" })],
    ["credit-note", creditNote()],
    ["guarantee", paper(mended, "guarantee")],
    ["notice", paper(dangerous, "notice")],
    ["notice-signed", paper(workedJob(closedJob("washer-dangerous", SIGNED)), "notice")],
    ["claim", paper(bad, "claim")],
    ["repair-form", paper(waiting, "repair form")],
    ["tag", tag()],
  ]);
}

const SIGNED = `notice: {found: [the heater leaks to the metal of the case], done: [plug pulled and a label tied to it], ended: signed, to: the tenant, signature: ${"0a".repeat(32)}}`;

/** A hand's stroke, as the pad keeps it, by the hash that the signed sample names. */
export const SIGNATURES: ReadonlyMap<string, string> = new Map([
  [
    "0a".repeat(32),
    '<svg xmlns="http://www.w3.org/2000/svg" width="600" height="240" viewBox="0 0 600 240"><rect width="600" height="240" fill="#fff"/><g fill="none" stroke="#000" stroke-width="3" stroke-linecap="round" stroke-linejoin="round"><path d="M60 150L90 80L120 160L150 90L180 150L210 120L240 150L300 110L330 150L420 130L540 140"/></g></svg>',
  ],
]);

/** Forty lines, two rates, and names that no column was made for. */
function longJob(currency: Currency): WorkedJob {
  const name =
    "Wilhelmina Featherstonehaugh-Cholmondeley, executor of the estate of the late Bartholomew Ravenscroft-Ashworth";
  const lines = Array.from({ length: 40 }, (_, n) => {
    const says =
      n % 7 === 0
        ? "Donaudampfschifffahrtsgesellschaftskapitänsmützenabzeichen, two of them, with every screw and washer"
        : `part ${n + 1}`;
    return `charged: {what: part, says: "${says}", amount: ${(n + 1) * 3.15}, quantity: ${1 + (n % 3)}, vat: ${n % 5 === 0 ? 7 : 19}}`;
  });
  const customer = `customer: {name: "${name}", lines: ["The Old Weighbridge House behind the Corn Exchange", "Saltgate"], postcode: "00017", town: Ostermoor, country: GB}`;
  return workedJob(closedJob("dryer-mended", customer, ...lines), currency);
}

function creditNote(): Paper {
  const invoice = must(madeFrom(workedJob(closedJob("dryer-mended")), "invoice", { number: "F-0007" }));
  const { content } = invoice;
  const event = { paper: "invoice", number: "F-0007", date: "2026-03-04", hash: sha256(content), content };
  const worked = workedJob(closedJob("dryer-mended", `issued: ${JSON.stringify(event)}`));
  const asked = { number: "G-0001", date: "2026-03-09", why: "the price agreed was another" };
  return must(madeFrom(worked, "credit note", asked)).paper;
}

function tag(): Paper {
  return shelfTagOf({
    number: "S-0041",
    date: "2026-03-04",
    part: "drain pump",
    ratings: "30 W, 230 V, 50 Hz",
    grade: "good",
    cleaned: true,
    ...(shop.letterhead === undefined ? {} : { from: shop.letterhead }),
    tests: [
      { what: "ohms of the coil", shown: "158 Ω", says: "good" },
      { what: "insulation to the metal, 500 V", shown: "above 200 MΩ", says: "good" },
      { what: "rotor turned by hand", shown: "snaps, a quarter turn free", says: "good" },
      { what: "started again and again", shown: "20 good of 20", says: "good" },
    ],
  });
}
