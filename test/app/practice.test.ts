import { describe, expect, test } from "vitest";
import { amiss } from "./amiss.ts";
import { appForAll, slow } from "./app.ts";

const tested = appForAll();

describe("practice on the ordinary screens", () => {
  test("the machine answers, what would hurt is not done, and at the end stand two histories", async () => {
    const { page, errors } = await tested.app.device();
    await page.getByRole("link", { name: "Practice" }).click();
    await page.getByRole("radio", { name: "tumble dryer" }).click();
    await page.getByLabel(/Number of the machine/).fill("7");
    expect(await amiss(page)).toEqual([]);
    await page.getByRole("button", { name: "Begin" }).click();
    const card = page.getByRole("article");
    await card.waitFor(slow);
    expect(await amiss(page)).toEqual([]);

    await page.getByText("Measure any two points").click();
    for (const [end, point] of [
      ["From", "plug.L"],
      ["To", "plug.N"],
    ] as const) {
      const box = page.getByRole("combobox", { name: end, exact: true });
      await box.fill(point === "plug.L" ? "plug, L" : "plug, N");
      await page.getByRole("option").first().click();
    }
    const measure = page.locator("details", { hasText: "Measure any two points" });
    await measure.getByRole("button", { name: "Do it: the machine answers" }).click();
    await page.getByRole("alert").getByText("Not done.").waitFor(slow);

    await page.getByRole("button", { name: /proved it dead/ }).click();
    await page.locator(".state.out").waitFor(slow);
    await page.getByText("Measure any two points").click({ trial: true });
    await card
      .getByRole("button", { name: /Do it: the machine answers|All of this is done/ })
      .first()
      .waitFor(slow);

    await page.getByRole("link", { name: "What can be done" }).click();
    for (const says of ["Every connector is back on", "It stands unplugged"]) {
      await page.getByRole("button", { name: says }).click();
      await page.locator(".tick:enabled[aria-pressed=true]", { hasText: says }).waitFor(slow);
    }
    await page.getByRole("button", { name: "Stop here, without a repair" }).click();
    await page.getByRole("link", { name: "Next step" }).click();
    await page.getByText(/^What was wrong: /).waitFor(slow);
    await page.getByRole("heading", { name: "The plan's" }).waitFor();
    const money = page.getByRole("row", { name: /^money in all/ }).getByRole("cell");
    expect(await money.allTextContents()).toEqual([expect.stringMatching(/EUR$/), expect.stringMatching(/EUR$/)]);
    expect(await amiss(page)).toEqual([]);
    expect(errors).toEqual([]);
  }, 240_000);
});
