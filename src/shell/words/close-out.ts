import type { Closing, Proved } from "../../core/ledger/index.ts";
import { provedText } from "../../core/paper/index.ts";
import type { Gate, GateReason, InsulationCoverage, Missed, WayToReach } from "../../core/safety/index.ts";
import { together } from "./list.ts";
import { contactInWords, heatUpInWords, operationsInWords } from "./proof.ts";
import { TEST_NAMES } from "./safety.ts";
import { width, wrap } from "./wrap.ts";

/** May the job be closed? Every reason against it, with what to do. */
export function gateInWords({ isOpen, reasons }: Gate): string[] {
  if (isOpen) return ["Nothing keeps this job open: it may be closed as mended."];
  return ["Not to be closed as mended yet:", ...reasons.flatMap((reason) => item(reasonInWords(reason)))];
}

/** One reason why a job may not be closed, and what to do. */
export function reasonInWords(reason: GateReason): string {
  switch (reason.is) {
    case "check failed":
      return `${reason.check}: no. Put it right first.`;
    case "not checked":
      return `${reason.check}: nobody has looked. Look, and write it down.`;
    case "why did it open":
      return `${reason.protector} opened, and nobody knows why. Find out before it is plugged in.`;
    case "not put back":
      return `not back in its place: ${reason.item}.`;
    case "disproved":
      return `the proof failed: ${reason.what}.`;
    case "not seen right":
      return `was amiss, and was not seen right since: ${reason.what}${reason.what.endsWith("?") ? "" : "."}`;
    case "nothing mended":
      return "nothing is mended: no repair was written down, or the last one did not work.";
    case "energised early":
      return "plugged in after the repair before look, earth and insulation had passed, or after a failed test. Unplug it and begin the tests with the look; the record will name it.";
    case "tests not begun":
      return "the safety tests: not begun. Say by whose rules.";
    case "test failed":
      return `${TEST_NAMES[reason.test]}: failed. It stays unplugged; put it right, then begin again with the look.`;
    case "tests not finished":
      return `the safety tests are not finished: next is ${TEST_NAMES[reason.next]}.`;
  }
}

/** What an insulation test at the plug did not reach, and how to reach it. */
export function coverageInWords({ reached, missed }: InsulationCoverage): string[] {
  return [
    ...wrap(
      `Insulation from the plug, by this sheet's circuit: ${reached.length === 0 ? "reaches no part that could leak to earth" : `reaches ${together(reached)}`}.`,
      width,
    ),
    ...missed.flatMap((part) => item(missedInWords(part))),
  ];
}

export function missedInWords({ says, isPartly, by }: Missed): string {
  return `${says}: ${isPartly ? "only partly reached" : "not reached"} from the plug. ${together(by.map(wayInWords))}.`;
}

function wayInWords(way: WayToReach): string {
  switch (way.is) {
    case "hands":
      return `the same test with ${together(way.hands)} held`;
    case "terminals": {
      const behind = way.access === undefined ? "" : ` (behind ${way.access})`;
      const pulled = way.pulled === undefined ? "" : `, connector ${way.pulled} pulled`;
      return `${together(way.points)} against earth, plug out${pulled}${behind}`;
    }
    case "running":
      return "only the current to earth tells, with it running";
  }
}

/** What was proved since the repair, what the customer was asked for, and what was not proved. */
export function provedInWords({ proved, unproved, energisedEarly }: Closing): string[] {
  if (proved.length + unproved.length === 0) return ["Nothing was proved since the last repair."];
  return [
    ...(energisedEarly === undefined
      ? []
      : wrap(
          energisedEarly === "after a failed test"
            ? "It was energised although a safety test had failed: that cannot be undone."
            : "It was energised after the repair before look, earth and insulation had passed: that cannot be undone.",
          width,
        )),
    ...proved.flatMap((one) => [`${one.says}:`, ...proofInWords(one).map((line) => `  ${line}`)]),
    ...unproved.flatMap(({ what, why, asked, days }) => {
      const within = days === undefined ? "" : ` within ${days} days`;
      const promise = asked === undefined ? "not proved" : `the customer was asked for a ${asked}${within}`;
      return wrap(`${what}: ${promise} (${why}).`, width);
    }),
  ];
}

function proofInWords(one: Proved): string[] {
  switch (one.kind) {
    case "operated":
      return operationsInWords(one.proof, one.good, one.of, one.minutesEach);
    case "loaded":
      return contactInWords(one.contact, one.by === "drop", false);
    case "logged":
      return wrap(provedText(one), width);
    case "heated": {
      const { heat } = one;
      return heatUpInWords(one.proof, {
        ratedWatts: heat.ratedWatts,
        isMainsKnown: heat.mainsVolts !== undefined,
        isWaterOnly: heat.loadKilograms === undefined && heat.tubKilograms === undefined,
        isBare: [heat.litres, heat.from, heat.to].some(({ spread }) => spread === "exact"),
      });
    }
  }
}

function item(text: string): string[] {
  return wrap(text, width, "  - ", "    ");
}
