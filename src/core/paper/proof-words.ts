import type { Closing, LoggedPower, Proved, Unproved } from "../ledger/index.ts";
import { formatAmount, uncertainty } from "../quantity/index.ts";
import type { Block } from "./paper.ts";
import { capital } from "./paper-facts.ts";

/** How strongly the repair is proved: here, by the customer, or not at all. All three are named, whatever stands in them. */
export function proofBlocks(
  { proved, unproved }: Closing,
  found: { readonly here: readonly string[]; readonly safety: string | undefined; readonly not: readonly string[] },
): Block[] {
  const safety = found.safety === undefined ? [] : [found.safety];
  const proofs = [...found.here, ...proved.map(provedText)];
  const yours = unproved.filter(({ asked }) => asked !== undefined);
  const never = unproved.filter(({ asked }) => asked === undefined);
  return [
    { is: "heading", text: "What was proved" },
    ...strength("Proved here, before we left", [...proofs, ...safety], "Nothing was proved here."),
    ...strength("For you to prove", yours.map(askedText), "Nothing is asked of you."),
    ...strength(
      "Not proved",
      [...found.not, ...never.map(({ what, why }) => `${capital(what)}: ${why}`)],
      proofs.length === 0 ? "Whether the repair holds." : "Nothing that this repair is about was left out.",
    ),
  ];
}

function strength(title: string, items: readonly string[], none: string): Block[] {
  return [
    { is: "paragraph", text: title, isStrong: true },
    items.length === 0 ? { is: "paragraph", text: none } : { is: "list", items },
  ];
}

/** What one act after the repair proved, in plain words with its figures. */
export function provedText(one: Proved): string {
  switch (one.kind) {
    case "operated": {
      const { says, good, of, proof, minutesEach } = one;
      const sure = {
        enough: "That is enough.",
        "go on": moreText(proof.more ?? 0, minutesEach),
        "not mended": "It is not mended.",
      }[proof.says];
      const share = `at most ${Math.ceil(proof.failsAtMost * 100)} times in 100`;
      return `${capital(says)}: worked ${good} of ${of} times. ${sure} (With that it is 95 % sure that it fails ${share}.)`;
    }
    case "loaded": {
      const { volts, watts } = one.contact;
      return `${capital(one.says)}: ${formatAmount(volts.value, "V")} lost in the contact under load, ${formatAmount(watts.value, "W")} (±${formatAmount(2 * uncertainty(watts), "W", 2)}) of heat.`;
    }
    case "logged":
      return loggedText(one.log);
    case "heated": {
      const { heat, proof } = one;
      const says = {
        "fits the rating": "It heats, and that fits its plate.",
        "too little": "It heats too little for its plate.",
        "too much": "More heat than its plate allows: to be checked.",
        "too close to say": "It heats; whether at full power is too close to say.",
      }[proof.says];
      return `${says} From ${heat.from.nominal} to ${heat.to.nominal} °C in ${Number((heat.seconds.nominal / 60).toFixed(1))} minutes: ${formatAmount(proof.watts.value, "W")} (±${formatAmount(2 * uncertainty(proof.watts), "W", 2)}) taken up, plate ${formatAmount(heat.ratedWatts, "W")}.`;
    }
  }
}

/** Hours, energy, the strongest heating, and step by step what the programme says to it. */
function loggedText({ file, seconds, kilowattHours, runs, steps }: LoggedPower): string {
  const hours = seconds < 5400 ? `${Math.round(seconds / 60)} minutes` : `${Number((seconds / 3600).toFixed(1))} hours`;
  const heats = runs.filter(({ load }) => load === "heater").map(({ watts }) => watts);
  const heat = heats.length === 0 ? "no heating seen" : `heats with up to ${Math.max(...heats)} W`;
  const told = steps.filter(({ says }) => says !== "not told apart");
  const held = told.map(({ step, says, watts }) => `${step} ${says}${watts === undefined ? "" : ` (${watts} W)`}`);
  const programme = held.length === 0 ? "" : ` Against the programme: ${held.join(", ")}.`;
  return `Log of the power at the plug (${file}): ${hours}, ${kilowattHours} kWh, ${heat}.${programme}`;
}

/** What being sure would cost. */
function moreText(more: number, minutesEach: number | undefined): string {
  const time = minutesEach === undefined ? "" : `, ${Math.round(more * minutesEach)} minutes of work`;
  return `By itself that is not enough to be sure: about ${more} more would have to go well${time}.`;
}

function askedText({ what, why, asked, days }: Unproved): string {
  const within = days === undefined ? "" : ` within ${days === 1 ? "a day" : `${days} days`}`;
  const please = {
    picture: `Please send us a picture${within}`,
    logger: `Please leave the logger plugged in${days === undefined ? "" : ` for ${days === 1 ? "a day" : `${days} days`}`}, then send it back`,
    call: `Please call us${within}`,
  }[asked ?? "call"];
  return `${capital(what)}: not proved here, since it ${why.replace(/^it /, "")}. ${please}.`;
}
