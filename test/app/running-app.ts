import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";
import { build } from "vite";
import { serve } from "../../scripts/serve.mjs";

/** Chromium's own calls home are refused on a closed network, many at a time. */
const quiet = [
  "--no-sandbox",
  "--disable-gpu",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-sync",
  "--disable-component-update",
];

/** The app as it would be served, in a real browser. */
export interface RunningApp {
  readonly address: string;
  readonly browser: Browser;
  /** A device of its own: its own storage. Errors of its pages fail the test that asks `errors`. */
  device(options?: { readonly width?: number; readonly height?: number; readonly dark?: boolean }): Promise<Device>;
  /** Nobody answers at the address any more. */
  stopServing(): Promise<void>;
  close(): Promise<void>;
}

export interface Device {
  readonly context: BrowserContext;
  readonly page: Page;
  readonly errors: string[];
}

/** Builds the app into a folder of its own, serves it, and starts the browser. */
export async function startApp(): Promise<RunningApp> {
  const folder = mkdtempSync(join(tmpdir(), "faultwright-app-"));
  const before = process.env.NODE_ENV;
  process.env.NODE_ENV = "production";
  await build({ configFile: "vite.web.config.ts", logLevel: "error", build: { outDir: folder, emptyOutDir: true } });
  process.env.NODE_ENV = before;
  const { server, address } = await serve(folder, 4400);
  const browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: quiet });
  const stopServing = async () => {
    server.closeAllConnections();
    await new Promise((resolve) => server.close(resolve));
  };
  return {
    address,
    browser,
    stopServing,
    async device({ width = 390, height = 844, dark = false } = {}) {
      const context = await browser.newContext({ viewport: { width, height }, colorScheme: dark ? "dark" : "light" });
      const page = await context.newPage();
      const errors: string[] = [];
      page.on("pageerror", (error) => errors.push(error.message));
      page.on("console", (message) => {
        if (message.type() === "error") errors.push(message.text());
      });
      await page.goto(address);
      await page.getByRole("heading", { level: 1 }).waitFor();
      return { context, page, errors };
    },
    async close() {
      await browser.close();
      await stopServing();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
