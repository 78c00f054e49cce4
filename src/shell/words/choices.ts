import { breakEvenYears, type Choice, type Choices, type SparePartDuty, type Spread } from "../../core/choice/index.ts";
import type { WorkedJob } from "../../core/ledger/index.ts";
import { minutesInWords, oddsInWords } from "./odds.ts";
import { width, wrap } from "./wrap.ts";

/** What can be done, a row a choice: to be read to the customer as it stands. */
export function choicesInWords({ job, sheet }: WorkedJob, all: Choices): string[] {
  const age = job.machine.ageYears === undefined ? "" : `, ${job.machine.ageYears} years`;
  const fault =
    all.likeliest === undefined ? [] : [`Likeliest: ${all.likeliest.says}, ${oddsInWords(all.likeliest.p)}.`];
  return [
    `What can be done · job ${job.id}: "${job.complaint}"`,
    [`${sheet.title}${age}.`, ...fault].join(" "),
    "",
    ...all.choices.flatMap((choice, index) => [...choiceInWords(choice, index + 1, all), ""]),
    ...limitInWords(all),
    ...olderInWords(all),
    ...paragraph(
      "Amounts are what you pay in all, call-out and the work so far with it. They are expected, not promised: what is agreed is what the quote says.",
    ),
    "",
    "Write down what was shown, with the prices you name:",
    "  - offered:",
    ...all.choices.map(({ id, says, pays }) => {
      const price = Math.round(pays.mean);
      return `    - {choice: ${JSON.stringify(id)}, says: ${JSON.stringify(says)}, price: ${price}}`;
    }),
  ];
}

function choiceInWords(choice: Choice, number: number, all: Choices): string[] {
  const { currency } = all;
  const lines = [
    `you pay ${about(choice.pays, currency)}`,
    ...depositInWords(choice, currency),
    ...(choice.way === "stop"
      ? ["not mended; call-out and finding the fault are paid"]
      : [
          `mended: ${ofTen(choice.cured)} ${dots(choice.cured)}${backInWords(choice)}`,
          `ready: ${readyInWords(choice)}`,
        ]),
    choice.way === "stop"
      ? `in the end, the machine counted as lost: ${about(choice.inTheEnd, currency)}`
      : `in the end, with what follows where it does not help: ${about(choice.inTheEnd, currency)}`,
    ...conditionsInWords(choice, all),
  ];
  return [
    ...wrap(choice.says, width, `${number}  `, "   "),
    ...lines.flatMap((line) => wrap(line, width, "   ", "     ")),
  ];
}

/** What holds a choice up or binds others to it: a protector's reason, the amount agreed, the maker's duty. */
export function conditionsInWords(choice: Choice, { currency, allowed, payer }: Choices): string[] {
  return [
    ...(choice.asksWhy === undefined ? [] : ["holds only if it is found why the protector opened"]),
    ...(choice.overLimit && allowed !== undefined
      ? [
          `more than the ${money(allowed.amount, currency)} agreed: ask ${payer ?? "first"}${payer === undefined ? "" : " first"}`,
        ]
      : []),
    ...(choice.duty === undefined || choice.order === undefined || isOlder(choice.duty)
      ? []
      : [dutyInWords(choice.duty)]),
  ];
}

function depositInWords({ order }: Choice, currency: string): string[] {
  if (order === undefined || order.deposit === 0) return [];
  return [`of that ${money(order.deposit, currency)} when the part is ordered`];
}

function backInWords({ back, guaranteeMonths }: Choice): string {
  if (back === undefined) return "";
  const within = guaranteeMonths === undefined ? "12 months" : `the guarantee of ${guaranteeMonths} months`;
  return ` · comes back within ${within}: ${ofTen(back)}`;
}

function readyInWords({ minutes, order, way }: Choice): string {
  const work = minutesInWords(minutes);
  const rest = way === "find and mend" ? `${work} to find it, then the repair` : work;
  if (order === undefined) return `today, ${rest}`;
  const { days } = order;
  if (days === undefined) return `a part has to be ordered; then ${work}`;
  const wait = days.lo === days.hi ? `${days.lo}` : `${days.lo} to ${days.hi}`;
  return `a part has to be ordered, ${wait} working days; then ${work}`;
}

/** "7 of 10 like this"; near the ends of twenty, so that nothing is promised or denied outright. */
export function ofTen(p: number): string {
  if (p > 0.95) return "more than 19 of 20 like this";
  if (p < 0.025) return "fewer than 1 of 40 like this";
  if (p < 0.075) return "1 of 20 like this";
  return `${Math.max(1, Math.round(p * 10))} of 10 like this`;
}

function dots(p: number): string {
  const full = Math.round(p * 10);
  return "●".repeat(full) + "○".repeat(10 - full);
}

function limitInWords(all: Choices): string[] {
  return [...paragraph(limitSentence(all)), ""];
}

/** What the machine is still worth and how long it must go on for a repair to pay, with the source of its years. */
export function limitSentence({ limit, currency, choices }: Choices): string {
  const { newPrice, ageYears, serviceYears, life, upTo, perYear } = limit;
  const source =
    life === undefined
      ? "the shop's own figure"
      : `${life.country}: ${life.of}; ${life.source.note ?? life.source.mark}`;
  const age =
    ageYears === undefined ? "Its age is not known, so it is taken as half way:" : `This one is ${ageYears} years old:`;
  const mending = choices.find(({ way, cured }) => way !== "stop" && cured > 0);
  const evens =
    mending === undefined
      ? ""
      : ` A repair at ${money(mending.pays.mean, currency)} costs no more a year than a new machine if this one then goes on for ${years(breakEvenYears(mending.pays.mean, limit))}.`;
  return `A comparable new machine costs about ${money(newPrice, currency)} and serves about ${serviceYears} years (${source}): ${money(perYear, currency)} a year. ${age} mended, it is still worth about ${money(upTo, currency)}.${evens} The decision is yours.`;
}

/** Said once: it holds for every part of the machine. */
function olderInWords(all: Choices): string[] {
  const older = olderSentence(all);
  return older === undefined ? [] : [...paragraph(older), ""];
}

/** That the machine is older than the rule which binds its maker to deliver parts; none where it is not. */
export function olderSentence({ choices }: Choices): string | undefined {
  const duty = choices.find((choice) => choice.duty !== undefined && isOlder(choice.duty))?.duty;
  return duty === undefined ? undefined : `${dutyInWords(duty)}.`;
}

function isOlder({ says }: SparePartDuty): boolean {
  return says === "older than the rule";
}

function dutyInWords({ title, to, years: after, says, until, workingDays }: SparePartDuty): string {
  const whom = to === "anyone" ? "anyone" : "a registered professional";
  const days = workingDays === undefined ? "" : ` within ${workingDays} working days`;
  const law = `its maker must deliver this part to ${whom}${days}, for ${after} years after the last unit of the model`;
  switch (says) {
    case "bound":
      return `${law}: until ${until} (${title})`;
    case "ended":
      return `its maker need not deliver this part any more, since ${until} (${title})`;
    case "older than the rule":
      return `This machine is older than the rule that binds its maker to deliver parts (${title})`;
    case "unknown":
      return `${law}; whether that covers this machine is unknown: nobody told when it and the last unit were placed on the market (${title})`;
  }
}

/** "about 214 EUR (9 in 10: 190 to 240)" */
export function about({ lo, mean, hi }: Spread, currency: string): string {
  const whole = (amount: number): string => amount.toFixed(0);
  return whole(lo) === whole(hi)
    ? money(mean, currency)
    : `about ${money(mean, currency)} on average, 9 in 10 from ${whole(lo)} to ${whole(hi)}`;
}

/** Whole units: an estimate has no pence. */
export function money(amount: number, currency: string): string {
  return `${amount.toFixed(0)} ${currency}`;
}

function years(count: number): string {
  return count < 1.25 ? "a year" : `${count.toFixed(1).replace(".0", "")} years`;
}

function paragraph(text: string): string[] {
  return wrap(text, width);
}
