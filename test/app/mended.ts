import type { Page } from "playwright-core";
import { slow } from "./app.ts";

/** The demonstration's dryer that hums, its run capacitor said to be mended, on the page of the next step. */
export async function mendedDryer(page: Page): Promise<void> {
  await page.getByRole("link", { name: /hums and does not turn/ }).click();
  await page.getByRole("link", { name: "What can be done" }).click();
  const course = page.locator("section", { has: page.getByRole("heading", { name: /run capacitor/ }) }).first();
  await course.waitFor(slow);
  await course.getByText("Write down that it was done").click();
  await course.getByRole("button", { name: "Done: it works" }).click();
  await page.getByRole("link", { name: "Next step" }).click();
}
