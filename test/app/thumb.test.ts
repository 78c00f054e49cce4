import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { appForAll, slow } from "./app.ts";

const tested = appForAll();

/** Counts what a thumb does: nothing is pressed by a script. */
const COUNT = `window.taps = 0; addEventListener("click", (event) => { if (event.isTrusted) window.taps++; }, true);`;
const taps = (page: Page): Promise<number> => page.evaluate("window.taps");

const settled = async (page: Page) => {
  await page.locator("#step").waitFor(slow);
  await page.locator(".thinking:not(.on)").waitFor({ ...slow, state: "attached" });
  await page
    .locator("fieldset:disabled")
    .first()
    .waitFor({ ...slow, state: "detached" });
};

/** Whether the whole of it is on the screen, between the head of the job and what is fixed at its foot. */
const isInSight = (page: Page, selector: string, foot: string): Promise<boolean> =>
  page.evaluate(`(() => {
    const { top, bottom, left, right } = document.querySelector(${JSON.stringify(selector)}).getBoundingClientRect();
    const from = document.querySelector(".job-head").getBoundingClientRect().bottom;
    const to = document.querySelector(${JSON.stringify(foot)}).getBoundingClientRect().top;
    return top >= from - 1 && bottom <= to + 1 && left >= 0 && right <= innerWidth;
  })()`);

describe("one thumb", () => {
  test("comes from the opened app to the first probe of a new dryer job in eight taps at most", async () => {
    const { page, errors } = await tested.app.device({ isPhone: true, script: COUNT });
    await page.getByRole("button", { name: "New job" }).tap();
    await page.getByRole("radio", { name: "tumble dryer" }).tap();
    const complaint = page.getByLabel("What does the customer say");
    await complaint.tap();
    await page.keyboard.type("turns but stays cold");
    await page.getByRole("button", { name: "Begin" }).tap();
    await settled(page);
    // Somebody who knows the family asks no more, and takes the first measurement that is offered.
    if ((await page.locator(".dock").count()) === 0) {
      await page
        .locator("button.line-key", { hasText: /and read|: measure/ })
        .first()
        .tap();
      await page.locator(".dock").waitFor(slow);
      expect(await isInSight(page, "#step", ".dock")).toBe(true);
    }
    const ready = page.getByRole("button", { name: "All of this is done" });
    if ((await ready.count()) > 0) await ready.tap();
    await page.locator(".thinking:not(.on)").waitFor({ ...slow, state: "attached" });
    if ((await page.locator(".dock.out").count()) === 0) await page.locator(".reading-input").first().tap();
    await page.locator(".dock.out").waitFor(slow);
    expect(await taps(page)).toBeLessThanOrEqual(8);
    expect(errors).toEqual([]);
  }, 180_000);

  test("types digits and unit and presses one key to the next step; keys of 76 px and their field are always in sight", async () => {
    const { page, errors } = await tested.app.device({ isPhone: true, script: COUNT });
    await page.getByRole("link", { name: /turns but stays cold/ }).tap();
    await settled(page);
    // The general cautions are read once a job; those of the very step stay.
    const cautions = page.locator(".care > li");
    const all = await cautions.allTextContents();
    await page.getByRole("button", { name: /^I have read/ }).tap();
    await page.getByRole("button", { name: /general cautions, read$/ }).waitFor(slow);
    expect(await cautions.count()).toBeLessThan(all.length);
    expect((await cautions.allTextContents()).join(" ")).toContain("may hold");
    await page.getByRole("button", { name: /general cautions, read$/ }).tap();
    expect((await cautions.allTextContents()).sort()).toEqual([...all].sort());

    await page.getByRole("button", { name: "All of this is done" }).tap();
    await page.locator(".dock.out").waitFor(slow);
    await settled(page);
    expect(await page.getByRole("button", { name: /general cautions?, read$/ }).count()).toBe(1);
    const keys = page.locator(".keypad button");
    expect(await isInSight(page, ".dock", ".feet")).toBe(true);
    // The keys came out by themselves, since what can hurt stands whole above them.
    expect(await isInSight(page, ".card .care", ".dock")).toBe(true);
    for (const key of await keys.all()) {
      const box = await key.boundingBox();
      expect(Math.min(box?.width ?? 0, box?.height ?? 0)).toBeGreaterThanOrEqual(76);
    }
    const fields = page.locator(".reading-input");
    const before = await taps(page);
    const count = await fields.count();
    for (let n = 0; n < count; n++) {
      for (const key of ["4", "7", "k, kilo"]) await page.getByRole("button", { name: key, exact: true }).tap();
      expect(await fields.nth(n).inputValue()).toBe("47k");
      expect(await isInSight(page, ".stage > .here .meter-mark", ".dock")).toBe(true);
      await page.locator(".keypad .send").tap();
    }
    expect((await taps(page)) - before).toBe(4 * count);
    await page.getByRole("link", { name: "Job history", exact: true }).tap();
    await page.locator(".event", { hasText: "47 kΩ" }).first().waitFor(slow);
    expect(errors).toEqual([]);
  }, 180_000);
});
