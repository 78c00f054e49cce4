import { verificationOf } from "../ledger/index.ts";
import { minorOf, money, moneyText } from "../money/index.ts";
import { readingsBlock, readingText } from "./before-after.ts";
import type { Block, Paper } from "./paper.ts";
import { capital, machineFacts, type PaperFacts, paperToCustomer, thingSays } from "./paper-facts.ts";
import { proofBlocks } from "./proof-words.ts";

/** The job report: what was found and done, what was proved and what was not, plain words first, readings after. */
export function reportOf(facts: PaperFacts): Paper {
  const { left } = facts.closing;
  const title = left === undefined ? "Job report" : "Job report: left waiting, made safe";
  return paperToCustomer("report", title, facts, [
    { is: "paragraph", text: inShort(facts), isStrong: true },
    machineFacts(facts),
    ...beforeWork(facts),
    ...(left === undefined
      ? []
      : ([
          { is: "heading", text: "How the machine was left" },
          { is: "paragraph", text: `It waits for ${left.waitingFor}. Until then it is not to be used.` },
          { is: "list", items: left.madeSafe.map(capital) },
        ] satisfies Block[])),
    { is: "heading", text: "What was found" },
    { is: "list", items: foundItems(facts) },
    { is: "heading", text: "What was done" },
    listOr(doneItems(facts), "Nothing was repaired."),
    ...(facts.worked.state.repairs.length === 0
      ? []
      : proofBlocks(facts.closing, { here: seenItems(facts), safety: safetyItem(facts), not: notProved(facts) })),
    ...readingsBlock(facts),
    ...openItems(facts),
    { is: "signatures", lines: ["Technician, date", "Customer, date"] },
  ]);
}

function inShort({ worked, closing, out, account }: PaperFacts): string {
  const { repairs } = worked.state;
  const last = repairs.at(-1);
  if (closing.left !== undefined) return "Your machine is not mended yet. It was made safe and waits.";
  if (closing.notices.length > 0) return "Your machine is dangerous and was not repaired. Please do not use it.";
  if (last === undefined)
    return account.declined.length > 0
      ? "Your machine was looked at. You decided against a repair."
      : "Your machine was looked at. Nothing was repaired.";
  if (last.worked === false) return "Something was repaired, and the fault is still there.";
  if (out.verdict?.says === "fail") return "A safety test failed. Your machine must stay unplugged.";
  return out.gate.isOpen
    ? "Your machine was repaired, tested, and passed its safety tests."
    : "Your machine was repaired. Not everything that belongs to it is done yet: see the end of this report.";
}

/** What was told and allowed before the work; nothing where no fees were told. */
function beforeWork({ account: { fees, limit }, worked }: PaperFacts): Block[] {
  const currency = worked.shop.trading?.currency;
  if (fees === undefined || currency === undefined) return [];
  const amount = (value: number): string => moneyText(money(minorOf(value, currency), currency));
  const whom = [fees.who, fees.how].filter((word) => word !== undefined).join(", ");
  const told = `${amount(fees.callOut)} for coming, ${amount(fees.diagnosis)} for finding the fault where it is not mended`;
  const rows = [
    ["Told before the work", whom === "" ? told : `${told} (${whom})`] as const,
    ...(limit === undefined ? [] : [["May be spent without asking", amount(limit.amount)] as const]),
  ];
  return [{ is: "facts", rows }];
}

function foundItems(facts: PaperFacts): readonly string[] {
  const { state, job } = facts.worked;
  const bad = state.observations.flatMap(({ observation: one }) =>
    one.kind === "look" && one.found === "bad" ? [one.at] : [],
  );
  // What was changed in vain was not what was wrong.
  const mended = state.repairs.filter(({ worked }) => worked !== false).map(({ on }) => on);
  const causes = new Set(facts.worked.case.candidates.flatMap(({ machine }) => machine.causes.map(({ id }) => id)));
  const found = [...new Set([...bad, ...mended])].map((id) => {
    const says = capital(thingSays(facts, id));
    return causes.has(id) ? says : `${says}: at fault`;
  });
  const whys = job.events.flatMap((event) =>
    event.kind === "why" && !state.withdrawn.has(event.id)
      ? [`The reason: ${thingSays(facts, event.protector)} opened because of ${thingSays(facts, event.reason)}`]
      : [],
  );
  const told = [...found, ...facts.closing.notices.flatMap((notice) => notice.found.map(capital)), ...whys];
  return told.length > 0 ? told : supposedItems(facts);
}

/** From so much on a possible fault is named to the customer, and from so much on "nothing wrong" is said. */
const NAMED = 0.2;
const SURE = 0.8;

/** What is believed where nothing was seen to be bad and nothing mended: with its odds, so that nobody takes it for found. */
function supposedItems({ worked }: PaperFacts): readonly string[] {
  const { nothingWrong, parts } = worked.belief;
  if (nothingWrong >= SURE) return ["Nothing was found to be wrong"];
  const likely = parts.filter(({ p }) => p >= NAMED).slice(0, 3);
  if (likely.length === 0) return ["Not found yet"];
  return likely.map(
    ({ says, p }) =>
      `${p >= 0.5 ? "Most probably" : "Possibly"}, by what was measured and seen: ${says} (about ${tenths(p)} in 10)`,
  );
}

function tenths(p: number): number {
  return Math.min(9, Math.max(1, Math.round(10 * p)));
}

/** What was amiss before the repair and was not looked at again since. */
function notProved(facts: PaperFacts): readonly string[] {
  const verification = verificationOf(facts.worked);
  if (verification === undefined) return [];
  const { toRead, toSee, toCount } = verification;
  return [
    ...toRead.map(({ reading }) => `Not measured again since: ${readingText(facts, reading)} before`),
    ...toCount.map(({ operations }) => `Not tried often enough since: ${operations} more times were wanted`),
    ...toSee.map(({ sign, was }) => `Not seen again since: ${sign.ask} (It was: ${was})`),
  ];
}

function doneItems(facts: PaperFacts): readonly string[] {
  return facts.worked.state.repairs.map(({ remedy, on, worked }) => {
    const said = worked === false ? " (it did not help)" : "";
    return `${capital(thingSays(facts, on))}: ${remedy}${said}`;
  });
}

/** Signs that a technician saw to be so since the last repair, in their own question and answer. */
function seenItems({ worked }: PaperFacts): readonly string[] {
  const { state } = worked;
  const last = state.repairs.at(-1);
  if (last === undefined) return [];
  const signs = new Map(worked.case.candidates.flatMap(({ machine }) => machine.signs).map((sign) => [sign.id, sign]));
  return state.observations.slice(last.after).flatMap(({ observation }) => {
    if (observation.kind !== "sign" || observation.witness !== "seen") return [];
    return [`Seen running: ${signs.get(observation.sign)?.ask ?? observation.sign} ${capital(observation.answer)}.`];
  });
}

function safetyItem({ out }: PaperFacts): string | undefined {
  return out.verdict?.says === "pass" ? "Safety tests: all passed; see the safety record." : undefined;
}

/** What is still owed before the job may be closed. */
function openItems(facts: PaperFacts): Block[] {
  const { gate, verdict } = facts.out;
  const { worked, closing } = facts;
  const repaired = worked.state.repairs.length > 0;
  const stillAmiss = verificationOf(worked)?.stillAmiss.length ?? 0;
  const items = [
    ...(repaired && !gate.isOpen && closing.left === undefined ? gate.reasons.map((reason) => reasonText(reason)) : []),
    ...(closing.left !== undefined && stillAmiss > 0
      ? ["Something measured or seen since the repair is still not as in a good machine"]
      : []),
  ];
  if (items.length === 0) return [];
  const safe = verdict?.says === "pass" ? "" : " Until then it must stay unplugged.";
  return [
    { is: "heading", text: "Still to be done" },
    { is: "list", items },
    { is: "paragraph", text: `The job is not closed.${safe}`, isStrong: true },
  ];
}

function reasonText(reason: PaperFacts["out"]["gate"]["reasons"][number]): string {
  switch (reason.is) {
    case "check failed":
      return `Not as it must be: ${reason.check}`;
    case "not checked":
      return `Not looked at yet: ${reason.check}`;
    case "why did it open":
      return `Not known yet: why ${reason.protector} opened`;
    case "not put back":
      return `Not back in its place yet: ${reason.item}`;
    case "disproved":
      return `The proof failed: ${reason.what}`;
    case "not seen right":
      return `Not seen to be right yet: ${reason.what}`;
    case "nothing mended":
      return "The fault is not mended";
    case "energised early":
      return "It was plugged in after the repair before its safety tests allowed it: they begin anew";
    case "tests not begun":
      return "Safety tests: not begun";
    case "test failed":
      return "Safety tests: one of them failed";
    case "tests not finished":
      return "Safety tests: not finished";
  }
}

function listOr(items: readonly string[], none: string): Block {
  return items.length === 0 ? { is: "paragraph", text: none } : { is: "list", items };
}
