import { InvalidArgumentError, Option } from "commander";

/** `--answer slot=variant`, as often as there are slots to answer; those left open are the commonest. */
export function answerOption(of: string): Option {
  return new Option("--answer <slot=variant>", `${of}answer a slot, as "stages=two" (repeatable)`)
    .argParser(gathered)
    .default([], "the commonest variant of each slot");
}

function gathered(value: string, before: readonly string[]): readonly string[] {
  if (value === "") throw new InvalidArgumentError("it is empty");
  return [...before, value];
}
