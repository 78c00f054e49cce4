import { defineConfig } from "vitest/config";

const testTimeout = 60_000;
const app = "test/app/**/*.test.ts";

export default defineConfig({
  test: {
    maxWorkers: 2,
    // They inherit nothing, so that workers asked for on the command line hold for all of them together.
    projects: [
      { test: { name: "core", testTimeout, include: ["src/**/*.test.ts", "test/**/*.test.ts"], exclude: [app] } },
      // Built and started once, and only where a test of the app runs.
      { test: { name: "app", testTimeout, include: [app], globalSetup: "test/app/built-once.ts" } },
    ],
  },
});
