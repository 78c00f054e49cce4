import { InvalidArgumentError } from "commander";

/** Reads a count given on the command line: a whole number of at least so many, or the command is refused. */
export function wholeNumber(least: number): (text: string) => number {
  return (text) => {
    const value = Number(text);
    if (!Number.isInteger(value) || value < least)
      throw new InvalidArgumentError(`A whole number of ${least} or more.`);
    return value;
  };
}
