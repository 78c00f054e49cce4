import { defineConfig } from "vitest/config";

const app = "test/app/**/*.test.ts";

export default defineConfig({
  test: {
    testTimeout: 60_000,
    maxWorkers: 2,
    projects: [
      { extends: true, test: { name: "core", include: ["src/**/*.test.ts", "test/**/*.test.ts"], exclude: [app] } },
      // Built and started once, and only where a test of the app runs.
      { extends: true, test: { name: "app", include: [app], globalSetup: "test/app/built-once.ts" } },
    ],
  },
});
