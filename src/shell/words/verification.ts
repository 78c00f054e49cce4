import type { Verification } from "../../core/ledger/index.ts";
import type { Plan } from "../../core/plan/index.ts";
import type { Observation } from "../../core/sign/index.ts";
import type { Belief } from "../../core/suspect/index.ts";
import { together } from "./list.ts";
import { placeInWords } from "./observation.ts";
import { reachInWords, reachOf } from "./reading.ts";
import { width, wrap } from "./wrap.ts";
import { lineToWrite } from "./write-down.ts";

/** A machine that is this surely in order leaves nothing to look for. */
const inOrder = 0.8;

/** Is nothing left to look for after a repair? */
export function isInOrder({ nothingWrong }: Pick<Belief, "nothingWrong">): boolean {
  return nothingWrong >= inOrder;
}

/** What is still to be done after a repair, as sentences in the order in which it is safe, each with what writes it down. */
export interface VerificationList {
  readonly title: string;
  readonly items: readonly VerificationItem[];
}

export type VerificationItem =
  /** Done by the hands: nothing of the machine is learned by it. */
  | { readonly do: "act"; readonly says: string }
  /** A safety test: made in its own place, not ticked. */
  | { readonly do: "test"; readonly says: string }
  /** Plugged in: that tells the state. */
  | { readonly do: "energise"; readonly says: string }
  | { readonly do: "back"; readonly says: string; readonly connector: string }
  | { readonly do: "close"; readonly says: string; readonly access: string; readonly items: readonly string[] }
  | { readonly do: "read"; readonly says: string; readonly asks: Observation & { readonly kind: "reading" } }
  /** Worked again and again, and counted. */
  | { readonly do: "count"; readonly says: string; readonly asks: Observation & { readonly kind: "count" } }
  | { readonly do: "see"; readonly says: string; readonly asks: Observation; readonly answers: readonly string[] };

/**
 * What is still owed to the last repair, in the order in which it is safe to do; or what to do before leaving.
 *
 * @param unanswered  protectors that opened for a reason nobody knows: that is asked before anything is plugged in again
 */
export function verificationList(verification: Verification, unanswered: Plan["unanswered"]): VerificationList {
  const { repair, adviceOnly, finished } = verification;
  const done = `${repair.says}: ${repair.remedy}`;
  if (adviceOnly) {
    return {
      title: `Put right by advice (${done}).`,
      items: [
        act("Show the customer on the machine, and write down what was agreed."),
        act("It is verified by the customer's next loads: agree when and how you hear of them."),
        ...leaving(verification),
      ],
    };
  }
  if (!finished) {
    const items = [...unanswered.map(whyFirst), ...owed(verification)];
    return { title: `Mended (${done}). Now verify, in this order:`, items };
  }
  return {
    title: `Verified (${done}). Before you leave:`,
    items: [
      ...leaving(verification),
      safetyTest(
        "Safety tests by your rules, if not done since the repair: protective conductor, insulation, then leakage or touch current, warm. Write the values down.",
      ),
      act("Clear what the display has stored; show the customer that it works."),
    ],
  };
}

/** The list for a terminal, with the line that writes each item into a job file. */
export function verificationInWords(verification: Verification, unanswered: Plan["unanswered"]): string[] {
  const { title, items } = verificationList(verification, unanswered);
  return [
    ...wrap(title, width),
    ...items.flatMap((item, n) => {
      const number = `  ${n + 1}. `;
      const indent = " ".repeat(number.length);
      const line = lineOf(item);
      const says = line === undefined ? item.says : item.says.replace(/\.$/, ` (\`- ${line}\`).`);
      const told = wrap(says, width, number, indent);
      return item.do === "read" || item.do === "count" || item.do === "see"
        ? [...told, `${indent}${lineToWrite(item.asks)}`]
        : told;
    }),
  ];
}

/** The line that writes an act into a job file. */
function lineOf(item: VerificationItem): string | undefined {
  switch (item.do) {
    case "close":
      return `closed: ${item.access}`;
    case "back":
      return `ticked: ${item.connector}`;
    case "energise":
      return "energised: RCD lead";
    default:
      return undefined;
  }
}

/** What opened a protector may still be there: power would try it again. */
function whyFirst({ says, reasons }: Plan["unanswered"][number]): VerificationItem {
  const likely = reasons.slice(0, 2).map((reason) => reason.says);
  const looked = likely.length === 0 ? "" : ` Likeliest: ${together(likely)}.`;
  return act(`Stays unplugged until it is known why this opened: ${says}.${looked} Write the reason down.`);
}

function act(says: string): VerificationItem {
  return { do: "act", says };
}

function safetyTest(says: string): VerificationItem {
  return { do: "test", says };
}

function owed(verification: Verification): VerificationItem[] {
  const { toRead, toCount, toSee } = verification;
  const reads = toRead.map(({ reading, good }) => {
    const shows = good === undefined ? "" : `, good is ${reachInWords(reachOf(good), reading.probe.quantity)}`;
    return {
      do: "read" as const,
      says: `Read again what read wrong: ${placeInWords(reading.probe)}${shows}.`,
      asks: reading,
    };
  });
  const counts = toCount.map(({ count, operations }) => ({
    do: "count" as const,
    says: `Work it ${operations} times, none may fail: ${placeInWords(count.probe)}. It was ${count.good} good of ${count.of}; once or twice good says nothing.`,
    asks: count,
  }));
  const taken = [...reads, ...counts];
  const live = taken.filter(({ asks }) => asks.probe.state.kind === "live");
  const dead = taken.filter((one) => !live.includes(one));
  const sees = toSee.map(
    ({ sign, was }): VerificationItem => ({
      do: "see",
      says: `See it: ${sign.ask} (It was: ${was}.)`,
      asks: { kind: "sign", sign: sign.id, answer: was, witness: "seen" },
      answers: sign.answers,
    }),
  );
  return [
    ...dead,
    ...leaving(verification),
    safetyTest("Before it is energised: protective conductor and insulation, by your rules; covers on."),
    ...(live.length + sees.length === 0
      ? []
      : [{ do: "energise" as const, says: "Plug in through a 30 mA RCD lead, stand clear, let it run." }]),
    ...live,
    ...sees,
    safetyTest("Warm: leakage or touch current, by your rules."),
  ];
}

/** What was opened and taken off, and must go back. */
function leaving({ putBack, pulled }: Verification): VerificationItem[] {
  return [
    ...pulled.map(
      (connector): VerificationItem => ({ do: "back", says: `Push connector ${connector} back on.`, connector }),
    ),
    ...putBack.map(({ access, says, items }): VerificationItem => {
      const with_ = items.length === 0 ? "" : `: put back ${together(items)}`;
      return { do: "close", says: `Close ${says}${with_}.`, access, items };
    }),
  ];
}
