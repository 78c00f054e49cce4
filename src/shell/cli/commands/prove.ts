import type { Command } from "commander";
import { closingOf } from "../../../core/ledger/index.ts";
import { contactOfDrop, contactOfOhms, proveByHeatUp, proveByOperations } from "../../../core/proof/index.ts";
import { type Estimate, type Rated, standardUncertainty } from "../../../core/quantity/index.ts";
import { provedInWords } from "../../words/close-out.ts";
import { contactInWords, heatUpInWords, operationsInWords } from "../../words/proof.ts";
import { amountOption } from "../amount-option.ts";
import { openJob } from "../open-job.ts";
import { print, printJson, Refused } from "../outcome.ts";
import { wholeNumber } from "../whole-number.ts";
import { knownRules } from "./job-safety.ts";

/** Is it mended? What operations, a contact at load and a heat-up prove. */
export function addProve(program: Command): void {
  const prove: Command = program
    .command("prove")
    .description("is it mended? what repeated operations, a contact at load or a heat-up prove")
    .argument("[job]", "a job file whose events tell what was proved")
    .action((job: string | undefined) => {
      if (job === undefined) return prove.help();
      print(provedInWords(closingOf(openJob(job), knownRules)));
    })
    .addHelpText(
      "after",
      `
Examples:
  faultwright prove operations --good 10 --of 10 --minutes 0.3
  faultwright prove contact --drop '120 mV ±2 mV' --amperes '9 A ±0.2 A'
  faultwright prove heat-up --litres '4 L ±10%' --from 15 --to 60 --time '9.5 min' --watts 2000
`,
    );
  addOperations(prove);
  addContact(prove);
  addHeatUp(prove);
}

function addOperations(prove: Command): void {
  prove
    .command("operations")
    .description("a contact, lock or drive operated again and again: enough, or go on, about how many more")
    .requiredOption("--good <n>", "operations that went well", wholeNumber(0))
    .requiredOption("--of <n>", "operations in all", wholeNumber(0))
    .addOption(amountOption("--minutes <each>", "minutes that one operation takes", "min"))
    .option("--json", "for programs")
    .action(({ good, of, minutes, json }: { good: number; of: number; minutes?: Rated; json?: true }) => {
      if (good > of)
        refuse("prove.count", "--good", `${good} good of ${of}`, "at most as many good ones as there were");
      const proof = proveByOperations(good, of);
      if (json) printJson(proof);
      else print(operationsInWords(proof, good, of, minutes?.nominal));
    });
}

interface ContactOptions {
  readonly ohms?: Rated;
  readonly drop?: Rated;
  readonly amperes: Rated;
  readonly json?: true;
}

function addContact(prove: Command): void {
  prove
    .command("contact")
    .description("watts lost in a contact, and its drop, under the current of its load")
    .addOption(amountOption("--ohms <ohms>", "of the closed contact, without load", "Ohm").conflicts("drop"))
    .addOption(amountOption("--drop <volts>", "across the closed contact, under load", "V"))
    .addOption(amountOption("--amperes <amperes>", "of the load", "A").makeOptionMandatory())
    .option("--json", "for programs")
    .action(({ ohms, drop, amperes, json }: ContactOptions) => {
      const current = named("amperes", amperes);
      const given = ohms ?? drop;
      if (given === undefined) return refuse("prove.contact", "--ohms", "nothing", "--ohms or --drop");
      const contact =
        drop === undefined ? contactOfOhms(named("ohms", given), current) : contactOfDrop(named("drop", drop), current);
      if (json) printJson({ ohms: plain(contact.ohms), watts: plain(contact.watts), volts: plain(contact.volts) });
      else print(contactInWords(contact, drop !== undefined, [given, amperes].some(isBare)));
    });
}

interface HeatOptions {
  readonly litres: Rated;
  readonly from: Rated;
  readonly to: Rated;
  readonly time: Rated;
  readonly watts: Rated;
  readonly rated?: Rated;
  readonly volts?: Rated;
  readonly load?: Rated;
  readonly tub?: Rated;
  readonly json?: true;
}

function addHeatUp(prove: Command): void {
  prove
    .command("heat-up")
    .description("kilowatts taken up against the plate, and the degrees a minute to expect")
    .addOption(amountOption("--litres <litres>", "water in the machine", "L").makeOptionMandatory())
    .addOption(amountOption("--from <degrees>", "at the start", "Cel", false).makeOptionMandatory())
    .addOption(amountOption("--to <degrees>", "at the end", "Cel", false).makeOptionMandatory())
    .addOption(amountOption("--time <time>", "from start to end, as 9.5 min or 570 s", "s").makeOptionMandatory())
    .addOption(amountOption("--watts <watts>", "of the heater, by its plate", "W").makeOptionMandatory())
    .addOption(amountOption("--rated <volts>", "at which the plate gives them (230 V if not told)", "V"))
    .addOption(amountOption("--volts <volts>", "mains while it heated, if measured", "V"))
    .addOption(amountOption("--load <kg>", "dry textiles or dishes", "kg"))
    .addOption(amountOption("--tub <kg>", "metal that warms with the water", "kg"))
    .option("--json", "for programs")
    .action(({ time, watts, rated, volts, load, tub, json, ...heat }: HeatOptions) => {
      if (heat.to.nominal <= heat.from.nominal) {
        const found = `${heat.from.nominal} to ${heat.to.nominal} °C`;
        refuse(
          "prove.no-rise",
          "--to",
          found,
          "an end that is warmer than the start",
          "Does it heat at all? Measure the heater.",
        );
      }
      const proof = proveByHeatUp({
        ...heat,
        seconds: time,
        ratedWatts: watts.nominal,
        ratedVolts: rated?.nominal ?? 230,
        ...(volts === undefined ? {} : { mainsVolts: volts }),
        ...(load === undefined ? {} : { loadKilograms: load }),
        ...(tub === undefined ? {} : { tubKilograms: tub }),
      });
      const asked = {
        ratedWatts: watts.nominal,
        isMainsKnown: volts !== undefined,
        isWaterOnly: load === undefined && tub === undefined,
        isBare: [heat.litres, heat.from, heat.to].some(isBare),
      };
      if (json) {
        const { low, high, says } = proof;
        const shares = { ofRating: plain(proof.ofRating), low, high };
        printJson({ says, watts: plain(proof.watts), ...shares, degreesPerMinute: plain(proof.degreesPerMinute) });
      } else print(heatUpInWords(proof, asked));
    });
}

function refuse(code: string, option: string, found: string, expected: string, hint?: string): never {
  throw new Refused([
    { code, severity: "error", at: [option], found, expected, ...(hint === undefined ? {} : { hint }) },
  ]);
}

const isBare = (rated: Rated): boolean => rated.spread === "exact";

function named(name: string, rated: Rated): Estimate {
  return { value: rated.nominal, parts: new Map([[name, standardUncertainty(rated)]]) };
}

/** For programs: the value, and its standard uncertainty by source. */
function plain({ value, parts }: Estimate) {
  return { value, uncertainty: Object.fromEntries(parts) };
}
