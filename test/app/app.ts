import { afterAll, beforeAll } from "vitest";
import { type RunningApp, startApp } from "./running-app.ts";

/** The engine may have a family to work out the first time. */
export const slow = { timeout: 90_000 };

/** The app for all tests of one file: started before them, ended after them. */
export function appForAll(): { readonly app: RunningApp } {
  let running: RunningApp | undefined;
  beforeAll(async () => {
    running = await startApp();
  }, 120_000);
  afterAll(() => running?.close());
  return {
    get app() {
      if (running === undefined) throw new Error("the app is started before the first test of a file, not before that");
      return running;
    },
  };
}
