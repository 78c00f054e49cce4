import { spawnSync } from "node:child_process";

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs the command line from its sources, in a process of its own, as a person would from the top of the clone. */
export function faultwright(...args: readonly string[]): Ran {
  return faultwrightTyped("", ...args);
}

/** The same, with lines piped to its standard input. */
export function faultwrightTyped(input: string, ...args: readonly string[]): Ran {
  const run = spawnSync(process.execPath, ["--import", "tsx", "src/shell/cli/main.ts", ...args], {
    encoding: "utf8",
    input,
    maxBuffer: 64 << 20,
    env: { ...process.env, TZ: "UTC", LC_ALL: "C.UTF-8" },
  });
  return { code: run.status, out: run.stdout, err: run.stderr };
}
