import { type Command, Option } from "commander";
import { parseAmount, type Rated, standardUncertainty } from "../../../core/quantity/index.ts";
import {
  judgeSafety,
  METERED,
  type MeteredTest,
  PROTECTION_CLASSES,
  type ProtectionClass,
  plugDischarge,
  readSafetyRules,
  type SafetyReading,
  unitOfTest,
} from "../../../core/safety/index.ts";
import { safetyInWords } from "../../words/safety.ts";
import { amountOption } from "../amount-option.ts";
import { dataTexts } from "../files.ts";
import { need, print, printJson, Refused } from "../outcome.ts";
import { safetyOfJob, verdictForPrograms } from "./job-safety.ts";

interface SafetyOptions
  extends Readonly<Partial<Record<"earth" | "insulation" | "protective" | "touch", SafetyReading>>> {
  readonly rules?: string;
  readonly class?: ProtectionClass;
  readonly json?: true;
  readonly cord?: Rated;
  readonly section?: Rated;
  readonly heating?: Rated;
  readonly portable?: true;
  readonly bareMetal?: true;
  readonly surge?: true;
  readonly look?: "pass" | "fail";
  readonly function?: "pass" | "fail";
  readonly cannot: readonly MeteredTest[];
  readonly filter?: Rated;
  readonly bleed?: Rated;
  readonly instrument?: string;
  readonly calibrated?: string;
}

/** Safe to plug in? The tests after a repair, by the rules of a country and edition. */
export function addSafety(program: Command): void {
  const texts = dataTexts("safety");
  const word = (flag: string, of: string): Option => new Option(`${flag} <word>`, of).choices(["pass", "fail"]);
  program
    .command("safety")
    .description("safe to plug in? the tests after a repair in their order, by a country's rules; a failed one stops")
    .argument("[job]", "a job file whose events tell the tests; nothing else is given then, but --json")
    .addOption(new Option("--rules <name>", "whose rules").choices([...texts.keys()]))
    .addOption(new Option("--class <class>", "protection class on the plate").choices(PROTECTION_CLASSES))
    .addOption(amountOption("--cord <metres>", "length of the cord", "1"))
    .addOption(amountOption("--section <mm2>", "of its conductors, square millimetres", "1"))
    .addOption(amountOption("--heating <watts>", "of its heating elements", "W"))
    .option("--portable", "held or carried in use")
    .option("--bare-metal", "class I: metal that can be touched and is not joined to earth")
    .option("--surge", "surge suppressors are built in")
    .addOption(word("--look", "what the look said"))
    .addOption(readingOption("--earth <ohms>", "earth"))
    .addOption(readingOption("--insulation <ohms>", "insulation"))
    .addOption(readingOption("--protective <amperes>", "protective current"))
    .addOption(readingOption("--touch <amperes>", "touch current"))
    .addOption(word("--function", "how it worked"))
    .addOption(new Option("--cannot <tests...>", "tests that cannot be made").choices(METERED).default([]))
    .addOption(amountOption("--filter <farads>", "between the plug's pins, for the volts left on them", "F"))
    .addOption(amountOption("--bleed <ohms>", "across that capacitor", "Ohm"))
    .option("--instrument <name>", "with what it was measured")
    .option("--calibrated <date>", "when that was calibrated")
    .option("--json", "for programs")
    .addHelpText(
      "after",
      `
A reading carries its ±; one above the top of the range is written '> 20 MΩ'.
Examples:
  faultwright safety examples/closed/dryer-mended.yaml
  faultwright safety --rules uk-4 --class I --cord 2 --section 1 --look pass --earth '0.12 ±0.01' --insulation '> 20 MΩ'
`,
    )
    .action((job: string | undefined, options: SafetyOptions) => {
      if (job !== undefined) return safetyOfJob(job, options.json === true);
      const { rules: named, class: protection } = options;
      if (named === undefined || protection === undefined) return refuseBare(texts.keys());
      const rules = need(readSafetyRules(texts.get(named) ?? "", `${named}.yaml`));
      const { earth, insulation, protective, touch, filter, bleed, instrument, calibrated } = options;
      const verdict = judgeSafety(
        rules,
        {
          protection,
          ...(options.cord === undefined ? {} : { cordMetres: options.cord.nominal }),
          ...(options.section === undefined ? {} : { cordSection: options.section.nominal }),
          ...(options.heating === undefined ? {} : { heatingWatts: options.heating.nominal }),
          isPortable: options.portable === true,
          hasBareMetal: options.bareMetal === true,
        },
        {
          ...(options.look === undefined ? {} : { look: options.look }),
          ...(options.function === undefined ? {} : { function: options.function }),
          cannot: options.cannot,
          readings: {
            ...(earth === undefined ? {} : { earth }),
            ...(insulation === undefined ? {} : { insulation }),
            ...(protective === undefined ? {} : { "protective current": protective }),
            ...(touch === undefined ? {} : { "touch current": touch }),
          },
        },
      );
      if (options.json === true) return printJson(verdictForPrograms(verdict));
      print(
        safetyInWords(rules, verdict, {
          protection,
          hasSurgeSuppressors: options.surge === true,
          ...(filter === undefined || bleed === undefined
            ? {}
            : { plug: plugDischarge(filter.nominal, bleed.nominal, 230) }),
          ...(instrument === undefined ? {} : { instrument }),
          ...(calibrated === undefined ? {} : { calibrated }),
        }),
      );
    });
}

function refuseBare(names: Iterable<string>): never {
  const expected = `--rules (${[...names].join(", ")}) and --class, or a job file`;
  throw new Refused([
    {
      code: "safety.nothing",
      severity: "error",
      at: ["--rules"],
      found: "neither a job nor rules and class",
      expected,
    },
  ]);
}

function readingOption(flags: string, test: MeteredTest): Option {
  const option = new Option(flags, `${test} as measured`);
  return option.argParser((text: string): SafetyReading => {
    const [, above, rest = text] = /^\s*(>)\s*(.*)$/.exec(text) ?? [];
    const amount = parseAmount(rest, { unit: unitOfTest(test), at: [option.long ?? flags] });
    if (!amount.ok) throw new Refused(amount.issues);
    // A current below zero would be under every limit.
    if (amount.value.nominal < 0) {
      const at = [option.long ?? flags];
      const issue = {
        code: "safety.below-zero",
        severity: "error",
        at,
        found: `"${text}"`,
        expected: "zero or more",
      } as const;
      throw new Refused([issue]);
    }
    if (above !== undefined) return { above: amount.value.nominal };
    return { value: { value: amount.value.nominal, parts: new Map([[test, standardUncertainty(amount.value)]]) } };
  });
}
