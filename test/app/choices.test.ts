import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { appForAll, slow } from "./app.ts";

const tested = appForAll();

/** A job of the demonstration, turned round to its customer. */
async function turnedRound(page: Page, complaint: RegExp): Promise<void> {
  await page.getByRole("link", { name: complaint }).click();
  await page.getByRole("link", { name: "What can be done" }).click();
  await page.getByRole("link", { name: "Show the customer" }).click(slow);
  await page.getByRole("table").waitFor(slow);
}

/** Nothing is being weighed any more. */
async function settled(page: Page): Promise<void> {
  await page.locator("fieldset:enabled .choice-table").waitFor(slow);
}

describe("the page that is turned round to the customer", () => {
  test("a course is accepted with a finger's signature, kept, told in the history, and taken back", async () => {
    const { page, errors } = await tested.app.device();
    await turnedRound(page, /hums and does not turn/);
    expect(await page.getByRole("columnheader").allTextContents()).toEqual([
      "You pay in all",
      "Mended",
      "Comes back",
      "Ready",
    ]);
    await page.getByText(/^A comparable new machine costs about \d+ EUR and serves about \d+ years/).waitFor();
    // Nothing of the search is on it.
    expect(await page.getByText(/PLUG OUT|LIVE|Possible faults/).count()).toBe(0);

    const accept = page.getByRole("link", { name: /^Accept: / });
    const row = ((await accept.first().getAttribute("aria-label")) ?? "").replace("Accept: ", "");
    await accept.first().click();
    await page.getByRole("heading", { name: "You agree to this" }).waitFor();
    await page.getByText(`${row}: `).waitFor();
    const done = page.getByRole("button", { name: "Done: signed" });
    expect(await done.isDisabled()).toBe(true);
    await page.getByLabel("Name of who decides").fill("the tenant");
    const pad = page.getByRole("img", { name: /^Sign here/ });
    await pad.scrollIntoViewIfNeeded();
    const box = await pad.boundingBox();
    if (box === null) throw new Error("the pad is not on the page");
    await page.mouse.move(box.x + 40, box.y + 90);
    await page.mouse.down();
    for (let i = 1; i <= 20; i++) await page.mouse.move(box.x + 40 + i * 10, box.y + 70 + 30 * Math.sin(i));
    await page.mouse.up();
    await done.click();
    await page.getByRole("heading", { name: "Agreed", exact: true }).waitFor(slow);
    await page.getByText("the tenant, signed").waitFor(slow);
    const drawing = page.getByRole("img", { name: "Signature of the tenant" });
    await drawing.waitFor();
    expect(await drawing.evaluate((image: { naturalWidth?: number }) => image.naturalWidth)).toBe(600);
    await settled(page);

    await page.getByRole("link", { name: "Back to the job" }).click();
    await page.getByRole("link", { name: "Job history" }).click();
    await page.getByText(/^shown: .* for \d+/).waitFor(slow);
    const event = page.getByRole("listitem").filter({ hasText: /accepted: .*, signed/ });
    await event.waitFor(slow);
    await event.getByRole("button", { name: "Take back" }).click();
    await page.getByText("taken back").waitFor(slow);
    await page.getByRole("link", { name: "What can be done" }).click();
    await page.getByRole("link", { name: "Show the customer" }).click(slow);
    await page.getByRole("table").waitFor(slow);
    expect(await page.getByRole("heading", { name: "Agreed", exact: true }).count()).toBe(0);
    expect(errors).toEqual([]);
  }, 180_000);

  test("by keyboard alone one course is declined, and all of them without a signature", async () => {
    const { page, errors } = await tested.app.device({ width: 1280, height: 800, dark: true });
    await turnedRound(page, /turns but stays cold/);
    await settled(page);
    const decline = page.getByRole("button", { name: /^No, not this: / });
    const rows = await decline.count();
    await decline.first().focus();
    await page.keyboard.press("Enter");
    await page.getByText("Said no to this.").waitFor(slow);
    await settled(page);
    expect(await decline.count()).toBe(rows - 1);
    await page.getByRole("link", { name: "None of these" }).focus();
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { name: "You do not want a repair" }).waitFor();
    await page.getByRole("button", { name: "Refused to sign" }).focus();
    await page.keyboard.press("Enter");
    await settled(page);
    await page
      .getByText("Said no to this.")
      .nth(rows - 1)
      .waitFor(slow);
    await page.getByRole("link", { name: "Back to the job" }).click();
    await page.getByRole("link", { name: "Job history" }).click();
    await page.getByText("declined: all, refused to sign").waitFor(slow);
    expect(errors).toEqual([]);
  }, 180_000);
});
