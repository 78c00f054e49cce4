import type { Verification } from "../../core/ledger/index.ts";
import { together } from "./list.ts";
import { placeInWords } from "./observation.ts";
import { reachInWords, reachOf } from "./reading.ts";
import { width, wrap } from "./wrap.ts";
import { lineToWrite } from "./write-down.ts";

/** What is still owed to the last repair, in the order in which it is safe to do; or what to do before leaving. */
export function verificationInWords(verification: Verification): string[] {
  const { repair, adviceOnly, finished } = verification;
  const done = `${repair.says}: ${repair.remedy}`;
  if (adviceOnly) {
    return told(`Put right by advice (${done}).`, [
      "Show the customer on the machine, and write down what was agreed.",
      "It is verified by the customer's next loads: agree when and how you hear of them.",
      ...leaving(verification),
    ]);
  }
  if (!finished) return told(`Mended (${done}). Now verify, in this order:`, owed(verification));
  return told(`Verified (${done}). Before you leave:`, [
    ...leaving(verification),
    "Safety tests by your rules, if not done since the repair: protective conductor, insulation, then leakage or touch current, warm. Write the values down.",
    "Clear what the display has stored; show the customer that it works.",
  ]);
}

interface Item {
  readonly says: string;
  readonly write: string;
}

function owed(verification: Verification): (string | Item)[] {
  const { toRead, toSee } = verification;
  const reads = toRead.map(({ reading, good }): Item => {
    const shows = good === undefined ? "" : `, good is ${reachInWords(reachOf(good), reading.probe.quantity)}`;
    return { says: `Read again what read wrong: ${placeInWords(reading.probe)}${shows}.`, write: lineToWrite(reading) };
  });
  const live = reads.filter((_, n) => toRead[n]?.reading.probe.state.kind === "live");
  const dead = reads.filter((one) => !live.includes(one));
  const sees = toSee.map(
    ({ sign, was }): Item => ({
      says: `See it: ${sign.ask} (It was: ${was}.)`,
      write: lineToWrite({ kind: "sign", sign: sign.id, answer: was, witness: "seen" }),
    }),
  );
  return [
    ...dead,
    ...leaving(verification),
    "Before it is energised: protective conductor and insulation, by your rules; covers on.",
    ...(live.length + sees.length === 0 ? [] : ["Plug in through a 30 mA RCD lead, stand clear, let it run."]),
    ...live,
    ...sees,
    "Warm: leakage or touch current, by your rules.",
  ];
}

/** What was opened and taken off, and must go back. */
function leaving({ putBack, pulled }: Verification): string[] {
  return [
    ...(pulled.length === 0 ? [] : [`Push connector ${together(pulled)} back on.`]),
    ...putBack.map(({ access, says, items }) => {
      const with_ = items.length === 0 ? "" : `: put back ${together(items)}`;
      return `Close ${says}${with_} (\`- closed: ${access}\`).`;
    }),
  ];
}

function told(title: string, items: readonly (string | Item)[]): string[] {
  return [
    ...wrap(title, width),
    ...items.flatMap((item, n) => {
      const number = `  ${n + 1}. `;
      const indent = " ".repeat(number.length);
      if (typeof item === "string") return wrap(item, width, number, indent);
      return [...wrap(item.says, width, number, indent), `${indent}${item.write}`];
    }),
  ];
}
