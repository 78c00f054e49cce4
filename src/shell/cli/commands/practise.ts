import { randomInt } from "node:crypto";
import { createInterface } from "node:readline";
import type { Command } from "commander";
import { seeded } from "../../../core/chance/index.ts";
import { didYouMean } from "../../../core/part/index.ts";
import { drawPractice, drawType, type Practice } from "../../../core/practice/index.ts";
import { checkAnswers } from "../../../core/sheet/index.ts";
import { meansMode } from "../../../core/sign/index.ts";
import { wrap } from "../../words/wrap.ts";
import { parseAnswers, sheetNamed, shippedLibrary, shippedMeters, shopNamed } from "../library.ts";
import { choiceInWords } from "../machine.ts";
import { need, print, Refused } from "../outcome.ts";
import { PracticeTalk } from "../practice-talk.ts";

interface Options {
  readonly seed?: string;
  readonly fault?: string;
  readonly answer: readonly string[];
}

/** Seeds that are made up when none is given are short enough to be typed again. */
const seeds = 10_000;

/** Practice mode: the ordinary job on a machine with a hidden fault; whoever types is the technician. */
export function addPractise(program: Command): void {
  program
    .command("practise <SHEET>")
    .alias("practice")
    .description("practise on a machine with a hidden fault that answers what is asked of it")
    .option("--seed <S>", "the same machine again, with the same answers")
    .option("--fault <PART>", "only faults of this part or cause (or PART/WAY) are drawn, for whoever teaches")
    .option("--answer <slot=variant...>", "which machine of the family it is", [])
    .addHelpText(
      "after",
      `
Lines are read from standard input and may be piped; \`help\` inside tells what can be typed.

Examples:
  faultwright practise tumble-dryer --seed 7
  printf 'ask heat\\nstop\\n' | faultwright practise tumble-dryer --seed 7
`,
    )
    .action(async (sheet: string, options: Options) => {
      const seed = options.seed ?? String(randomInt(seeds));
      const { practice, about } = openPractice(sheet, seed, options);
      const talk = new PracticeTalk(practice);
      print([...wrap(`Practice, with a hidden fault (--seed ${seed}): ${about}.`, 96), "", ...talk.greeting(), ""]);
      await converse(talk);
    });
}

/** A learner before a drawn machine of a family. */
export function openPractice(
  sheetName: string,
  seed: string,
  { fault, answer }: Pick<Options, "fault" | "answer">,
): { readonly practice: Practice; readonly about: string } {
  const library = shippedLibrary();
  const sheet = sheetNamed(sheetName, library);
  const shop = shopNamed("demo-shop");
  const answers = need(parseAnswers(answer));
  const wrong = checkAnswers(sheet, answers);
  if (wrong.length > 0) throw new Refused(wrong);
  const random = seeded(seed);
  const type = drawType({ sheet, library, shop, meters: shippedMeters() }, random, answers);
  const { machine, case: the } = type.right;
  const known = [...machine.parts, ...machine.causes].map(({ id }) => id);
  if (fault !== undefined && !the.candidates[0].modes.some((mode) => meansMode(fault, mode, machine))) {
    throw new Refused([
      {
        code: "practise.unknown-fault",
        severity: "error",
        at: [],
        found: `"${fault}"`,
        expected: "a part or cause of this machine, or part/way of failing",
        ...hintFor(fault, known),
      },
    ]);
  }
  const practice = drawPractice(type, shop, random, fault);
  if (practice === undefined) {
    throw new Refused([
      {
        code: "practise.nothing-to-see",
        severity: "error",
        at: [],
        found: `no fault of ${fault ?? sheetName} that anybody would call about`,
        expected: "a part or cause whose faults show",
      },
    ]);
  }
  return { practice, about: `${machine.title} · ${choiceInWords(machine)}` };
}

function hintFor(fault: string, known: readonly string[]): { readonly hint?: string } {
  const hint = didYouMean(fault, known);
  return hint === undefined ? {} : { hint };
}

/** Lines in, lines out, until the job or the input ends. What is piped is echoed, so that what is kept of it reads like a talk. */
async function converse(talk: PracticeTalk): Promise<void> {
  const typing = process.stdin.isTTY === true;
  const lines = createInterface({ input: process.stdin, terminal: false });
  process.stdout.write(talk.prompt());
  for await (const line of lines) {
    if (!typing) process.stdout.write(`${line}\n`);
    const said = talk.hear(line);
    if (said.length > 0) print(said);
    if (talk.over) break;
    process.stdout.write(talk.prompt());
  }
  const inputEnded = !talk.over;
  if (inputEnded) process.stdout.write("\n");
  if (typing) process.stderr.write("The plan works on the same machine; that takes some seconds ...\n");
  print(["", ...talk.ending(inputEnded)]);
  lines.close();
}
