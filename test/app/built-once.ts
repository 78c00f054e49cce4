import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium } from "playwright-core";
import { build } from "vite";
import type { TestProject } from "vitest/node";

/** Chromium's own calls home are refused on a closed network, many at a time. */
const quiet = [
  "--no-sandbox",
  "--disable-gpu",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-sync",
  "--disable-component-update",
];

declare module "vitest" {
  interface ProvidedContext {
    /** Folder of the built app, and where the browser listens. */
    readonly app: { readonly folder: string; readonly browser: string };
  }
}

/** Before the first test of the app, and once for all of them: builds the app into a folder of its own, and starts the browser. */
export default async function buildOnce(project: TestProject): Promise<() => Promise<void>> {
  const folder = mkdtempSync(join(tmpdir(), "faultwright-app-"));
  const before = process.env.NODE_ENV;
  process.env.NODE_ENV = "production";
  await build({ configFile: "vite.web.config.ts", logLevel: "error", build: { outDir: folder, emptyOutDir: true } });
  process.env.NODE_ENV = before;
  const server = await chromium.launchServer({
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    args: quiet,
  });
  project.provide("app", { folder, browser: server.wsEndpoint() });
  return async () => {
    await server.close();
    rmSync(folder, { recursive: true, force: true });
  };
}
