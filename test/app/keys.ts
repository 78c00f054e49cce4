import type { Locator, Page } from "playwright-core";
import { expect } from "vitest";
import { slow } from "./app.ts";
import { kept } from "./kept.ts";

/** The keys of the app under one thumb: waits until they may be pressed, and keeps what each press was for. */
export class Keys {
  readonly page: Page;
  /** Kinds of the events that the keys pressed were for. */
  readonly wrote: string[] = [];

  constructor(page: Page) {
    this.page = page;
  }

  /** Nothing is being worked out, and what is shown may be pressed. */
  async settled(): Promise<void> {
    await this.page
      .locator("fieldset:disabled")
      .first()
      .waitFor({ ...slow, state: "detached" });
    await this.page.locator(".thinking:not(.on)").waitFor({ ...slow, state: "attached" });
  }

  /**
   * Presses a key, and waits until the device holds what it is for.
   *
   * @param kinds  of the events that this key writes
   */
  async press(key: Locator, ...kinds: readonly string[]): Promise<void> {
    const before = (await kept(this.page)).length;
    await key.tap(slow);
    this.wrote.push(...kinds);
    await expect.poll(async () => (await kept(this.page)).length, slow).toBe(before + kinds.length);
  }
}
