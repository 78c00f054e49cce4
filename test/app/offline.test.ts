import { describe, expect, test } from "vitest";
import { appForAll, slow } from "./app.ts";

const tested = appForAll();

describe("without a signal", () => {
  test("two tabs on one job both show every event", async () => {
    const { context, page, errors } = await tested.app.device();
    await page.getByRole("link", { name: /hums and does not turn/ }).click();
    await page.locator(".state").waitFor(slow);
    const other = await context.newPage();
    await other.goto(page.url());
    await other.locator(".state").waitFor(slow);
    await other.getByRole("button", { name: /proved it dead/ }).click();
    await page.locator(".state.out").waitFor(slow);
    expect(errors).toEqual([]);
  }, 240_000);

  test("after the first load the app opens, works a job and keeps it with the server gone", async () => {
    const { context, page } = await tested.app.device();
    await page.evaluate("navigator.serviceWorker.ready.then(() => undefined)");
    await page.getByRole("link", { name: /always damp/ }).waitFor();
    await tested.app.stopServing();
    await page.close();

    const again = await context.newPage();
    await again.goto(tested.app.address);
    await again.getByRole("link", { name: /always damp/ }).click();
    await again.getByRole("article").waitFor(slow);
    await again.getByRole("link", { name: "Job history" }).click();
    await again.getByLabel("Add a note").fill("no signal in the cellar");
    await again.getByRole("button", { name: "Add", exact: true }).click();
    await again.locator(".event", { hasText: "no signal in the cellar" }).waitFor();
    await again.reload();
    await again.locator(".event", { hasText: "no signal in the cellar" }).waitFor(slow);
  }, 240_000);
});
