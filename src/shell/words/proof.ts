import { type ContactAtLoad, type HeatUpProof, type OperationsProof, USUAL_AIM } from "../../core/proof/index.ts";
import { type Estimate, formatAmount, type UnitCode, uncertainty } from "../../core/quantity/index.ts";
import { width, wrap } from "./wrap.ts";

const LIVE =
  "Local rules and licensed practice come first. Covers on, on a lead with an RCD; clip on with the plug out, hands away, then read. Nothing repaired is energised before look, earth and insulation.";

/** What repeated operations prove, and the minutes still to be spent. */
export function operationsInWords(proof: OperationsProof, good: number, of: number, minutesEach?: number): string[] {
  const per = (share: number): string => `${Math.round(share * 1000) / 10} in 100`;
  const tried = `${good} good of ${of}. 19 times in 20 such a part fails in at most ${per(proof.failsAtMost)} operations.`;
  const more = proof.more ?? 0;
  const time = minutesEach === undefined ? "" : `, ${Number((more * minutesEach).toFixed(1))} minutes`;
  const says = {
    enough: "Enough.",
    "go on": `Go on: about ${more} more${time}, if every one is good.`,
    "not mended": `Not mended: it fails in at least ${per(proof.failsAtLeast)} operations.`,
  }[proof.says];
  return [
    ...paragraph(LIVE),
    ...paragraph(says),
    ...paragraph(tried),
    ...paragraph(
      `Asked: does it fail once in ${Math.round(1 / USUAL_AIM.good)}, or once in ${Math.round(1 / USUAL_AIM.bad)}? Wrong once in ${Math.round(1 / USUAL_AIM.miss)} either way (our own choice). Count every operation since the repair, the bad ones too, with the load and the heat at which it failed.`,
    ),
  ];
}

/** Watts and millivolts of a contact under its load. */
export function contactInWords(contact: ContactAtLoad, byDrop: boolean, isBare: boolean): string[] {
  return [
    ...paragraph(LIVE),
    `${spread(contact.watts, "W")} in the contact, ${spread(contact.volts, "V")} across it, ${spread(contact.ohms, "Ohm")}.`,
    ...paragraph(
      byDrop
        ? "No limit is set here: hold it against a good pole of the same part, or what its maker allows."
        : "No limit is set here: hold it against a good pole of the same part. Ohms without load prove less than the drop under load: a dirty contact may read well with a meter's small current.",
    ),
    ...(isBare ? paragraph(BARE) : []),
  ];
}

interface HeatUpAsked {
  readonly ratedWatts: number;
  readonly isMainsKnown: boolean;
  readonly isWaterOnly: boolean;
  readonly isBare: boolean;
}

/** Kilowatts taken up against the plate, and what makes the answer wide. */
export function heatUpInWords(proof: HeatUpProof, asked: HeatUpAsked): string[] {
  const per = (share: number): string => `${Math.round(share * 100)}`;
  const says = {
    "fits the rating": "It heats, and that fits its plate.",
    "too little": "It heats too little for its plate.",
    "too much": "More heat than its plate allows: check litres, degrees and minutes first.",
    "too close to say": "It heats; whether at full power is too close to say: half the heater may be missing.",
  }[proof.says];
  return [
    ...paragraph(LIVE),
    says,
    ...paragraph(
      `${spread(proof.watts, "W")} by the heat taken up; plate ${formatAmount(asked.ratedWatts, "W")}. That is ${per(proof.low)} to ${per(proof.high)} of 100 parts of what the plate promises at these volts (19 times in 20).`,
    ),
    `A heater as rated would give ${plainly(proof.degreesPerMinute)} °C a minute.`,
    ...(asked.isWaterOnly
      ? paragraph(
          "Only the water was counted; tub, load and room take 15 to 40 of 100 parts of the heat (from memory, an estimate). Give --tub and --load for a closer answer.",
        )
      : []),
    ...(asked.isMainsKnown
      ? []
      : paragraph(
          "Mains volts were not given: anything in the ±10 % of the public supply. Give --volts for a closer answer.",
        )),
    ...(asked.isBare ? paragraph(BARE) : []),
    ...paragraph(
      `Never leave a machine alone that proves its heat; steam at the door, metal hot for a quarter of an hour.`,
    ),
  ];
}

const BARE = "A value without its ± was taken as exact; give what your meter and your eye allow, as '4 L ±10%'.";

/** Twice the standard uncertainty behind the value: about 19 times in 20. */
function spread(estimate: Estimate, unit: UnitCode): string {
  const reach = 2 * uncertainty(estimate);
  return reach === 0
    ? formatAmount(estimate.value, unit)
    : `${formatAmount(estimate.value, unit)} (±${formatAmount(reach, unit, 2)})`;
}

function plainly(estimate: Estimate): string {
  return `${estimate.value.toFixed(1)} (±${(2 * uncertainty(estimate)).toFixed(1)})`;
}

function paragraph(text: string): string[] {
  return wrap(text, width);
}
