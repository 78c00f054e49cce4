import { keptBill } from "../../../core/bill/index.ts";
import { type Checked, type Issue, sentence } from "../../../core/issue/index.ts";
import {
  closeOutOf,
  closingOf,
  type IssuedPaper,
  type LedgerEvent,
  recordOf,
  type WorkedJob,
} from "../../../core/ledger/index.ts";
import {
  issuedPaper,
  keptPaper,
  makePaper,
  type PaperFacts,
  paperFacts,
  paperOffers,
} from "../../../core/paper/index.ts";
import type { Shop } from "../../../core/remedy/index.ts";
import { partUsedBy, stockNow, stockRecordOf, toOrder, type Used } from "../../../core/shelf/index.ts";
import { benchView } from "./bench-view.ts";
import type { Facts } from "./facts.ts";
import type { AskPapers, OrdersView, PapersAnswers } from "./papers-protocol.ts";

type WorkOut = (text: string) => Checked<WorkedJob>;

/** Answers what is asked of papers and money. */
export async function answer(ask: AskPapers, workOut: WorkOut, facts: Facts): Promise<PapersAnswers[AskPapers["do"]]> {
  if (ask.do === "kept paper") return await kept(ask.issued);
  if (ask.do === "orders") return orders(ask, workOut, facts);
  if (ask.do === "job shop") return shopOf(ask, facts);
  const worked = workOut(ask.text);
  if (!worked.ok) return refused(worked.issues);
  const known = factsOf(worked.value, facts, ask);
  if (ask.do === "papers") return { ok: true, offers: paperOffers(known) };
  const { kind, credit } = ask;
  if (kind === "credit note") {
    const invoice = known.account.issued.find(({ paper, number }) => paper === "invoice" && number === credit?.of);
    const whole = invoice === undefined ? undefined : await kept(invoice);
    if (whole?.ok === false) return whole;
  }
  const made = makePaper(kind, known, credit);
  if (!made.ok) return refused(made.issues);
  const { paper, content } = made.value;
  const hash = await hashOf(content);
  const bill = billIn(content, paper.kind);
  return {
    ok: true,
    paper,
    ...(bill === undefined ? {} : { bill }),
    ...(hash === undefined ? {} : { issued: issuedPaper(worked.value, made.value, () => hash) }),
  };
}

function factsOf(
  worked: WorkedJob,
  facts: Facts,
  { date, demo, ...ask }: { readonly date: string; readonly demo: boolean; readonly number?: string },
): PaperFacts {
  const ours: WorkedJob = isOurs(demo, facts) ? worked : { ...worked, shop: nameless(worked.shop) };
  const closing = closingOf(ours, facts.rulesOf);
  const known = closing.safety === undefined ? undefined : facts.rulesOf(closing.safety.setting.rules);
  const out = closeOutOf(ours, closing, known);
  const { number } = ask;
  return paperFacts(
    ours,
    { closing, out, ...(known === undefined ? {} : { rules: known }) },
    { date, ...(number === undefined ? {} : { number }) },
  );
}

function shopOf({ text, demo }: Extract<AskPapers, { do: "job shop" }>, facts: Facts): PapersAnswers["job shop"] {
  const read = facts.job(text);
  if (!read.ok) return refused(read.issues);
  const { shop, sheet } = read.value.ground;
  const { trading, letterhead, callOut } = shop;
  return {
    ok: true,
    shop: {
      machine: sheet.title,
      ...(trading === undefined
        ? {}
        : { trading: { currency: trading.currency, callOut, diagnosis: trading.diagnosis } }),
      ...(letterhead === undefined || !isOurs(demo, facts) ? {} : { name: letterhead.party.name }),
    },
  };
}

/** The cost file's shop without what it says and promises in its own name. */
function nameless({ letterhead: _letterhead, trading, ...shop }: Shop): Shop {
  if (trading === undefined) return shop;
  const { guaranteeMonths: _months, ...rest } = trading;
  return { ...shop, trading: rest };
}

/** Nobody else's name and account on a real customer's paper: the cost file's are invented. */
function isOurs(demo: boolean, facts: Facts): boolean {
  return demo || facts.own !== undefined;
}

async function kept(issued: IssuedPaper): Promise<PapersAnswers["kept paper"]> {
  const hash = await hashOf(issued.content ?? "");
  // A page that cannot make hashes shows what this very device has kept.
  const paper = keptPaper(issued, () => hash ?? issued.hash ?? "");
  if (!paper.ok) return refused(paper.issues);
  const bill = billIn(issued.content ?? "", issued.paper);
  return { ok: true, paper: paper.value, ...(bill === undefined ? {} : { bill }) };
}

function orders(
  { jobs, stock, standing, loose }: Extract<AskPapers, { do: "orders" }>,
  workOut: WorkOut,
  facts: Facts,
): PapersAnswers["orders"] {
  const record = stockRecordOf(stock);
  const known = new Set(record.used.map(({ repair }) => repair));
  const stands = new Set(standing);
  const waiting: WorkedJob[] = [];
  const uses: Used[] = [];
  for (const { text, repairs } of jobs) {
    const worked = workOut(text);
    if (!worked.ok) return refused(worked.issues);
    waiting.push(worked.value);
    worked.value.state.repairs.forEach((repair, n) => {
      const id = repairs[n];
      if (id === undefined || known.has(id)) return;
      const takes = partUsedBy(worked.value, repair);
      uses.push({ repair: id, job: worked.value.job.id, ...(takes === undefined ? {} : { takes }) });
    });
  }
  const tested = loose.map((events) => testedPart(events, facts));
  const { items, lacking } = stockNow({ ...record, used: [...record.used, ...uses] }, tested, (id) => stands.has(id));
  const view: OrdersView = { lines: toOrder({ says: "", items }, waiting), lacking, items };
  return { ok: true, view, uses };
}

/** A loose part that was tested and put on the shelf, with what its test came to, and the event that put it there. */
function testedPart(events: readonly LedgerEvent[], facts: Facts) {
  const record = recordOf(events);
  const view = benchView(events, facts);
  if (record === undefined || !view.ok) throw new Error("a part on the shelf that has no record");
  const { grade, says, ratings } = view.value;
  const closes = record.events.findLast(({ id, kind }) => kind === "closes" && !record.withdrawn.has(id));
  const item: OrdersView["items"][number] = {
    part: record.head.part?.kind ?? "",
    says: `${record.head.number} ${says}`,
    where: "bench",
    state: "used",
    count: 1,
    least: 0,
    tag: {
      grade: grade.says,
      tested: record.touched.slice(0, 10),
      shows: ratings.map(({ name, value }) => `${name} ${value}`).join(", "),
    },
    record: record.id,
  };
  return { event: closes?.id ?? record.id, item };
}

function billIn(content: string, kind: string) {
  if (kind !== "quote" && kind !== "invoice" && kind !== "credit note") return undefined;
  const bill = keptBill(content);
  return bill.ok ? bill.value : undefined;
}

/** SHA-256, hexadecimal; none on a page that did not come over https: browsers make none there. */
async function hashOf(text: string): Promise<string | undefined> {
  if (globalThis.crypto?.subtle === undefined) return undefined;
  const bytes = new Uint8Array(await crypto.subtle.digest("SHA-256", new TextEncoder().encode(text)));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

function refused(issues: readonly Issue[]): { readonly ok: false; readonly issues: readonly string[] } {
  return { ok: false, issues: issues.map(sentence) };
}
