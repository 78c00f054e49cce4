import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";
import { inject } from "vitest";
import { serve } from "../../scripts/serve.mjs";

/** The app as it would be served, in a real browser. */
export interface RunningApp {
  readonly address: string;
  readonly browser: Browser;
  /** A device of its own: its own storage. Errors of its pages fail the test that asks `errors`. */
  device(options?: DeviceOptions): Promise<Device>;
  /** Nobody answers at the address any more. */
  stopServing(): Promise<void>;
  close(): Promise<void>;
}

export interface DeviceOptions {
  readonly width?: number;
  readonly height?: number;
  readonly dark?: boolean;
  /** A phone: worked by touch. */
  readonly isPhone?: boolean;
  /** Run in every page before its own scripts. */
  readonly script?: string;
}

export interface Device {
  readonly context: BrowserContext;
  readonly page: Page;
  readonly errors: string[];
}

/** Serves the app that was built for all tests, and joins the browser that was started for them. */
export async function startApp(): Promise<RunningApp> {
  const built = inject("app");
  const { server, address } = await serve(built.folder, 4400);
  const browser = await chromium.connect(built.browser);
  const stopServing = async () => {
    server.closeAllConnections();
    await new Promise((resolve) => server.close(resolve));
  };
  return {
    address,
    browser,
    stopServing,
    async device({ width = 390, height = 844, dark = false, isPhone = false, script = "" } = {}) {
      const context = await browser.newContext({
        viewport: { width, height },
        colorScheme: dark ? "dark" : "light",
        isMobile: isPhone,
        hasTouch: isPhone,
      });
      await context.addInitScript(script);
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
    },
  };
}
