import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { appForAll, slow } from "./app.ts";

const tested = appForAll();

async function read(page: Page, step: string, shown: string): Promise<void> {
  const card = page.locator(".bench-step", { hasText: step });
  if ((await card.getAttribute("open")) === null) await card.locator("summary").click();
  await card.getByRole("textbox").fill(shown);
  await card.getByRole("button", { name: "Write down" }).first().click();
  await card.locator("summary b", { hasText: shown }).waitFor(slow);
}

async function count(page: Page, step: string, good: number, failed: number): Promise<void> {
  const card = page.locator(".bench-step", { hasText: step });
  for (let i = 0; i < good; i++) await card.getByRole("button", { name: "Good", exact: true }).click();
  for (let i = 0; i < failed; i++) await card.getByRole("button", { name: "Failed", exact: true }).click();
  await card.getByRole("button", { name: "Write down" }).last().click();
  await card.locator("summary b", { hasText: `${good} good of ${good + failed}` }).waitFor(slow);
}

describe("a loose part on the bench", () => {
  test("a two-pole relay with one bad pole is not for use; cleaned, it is tested again, graded and tagged", async () => {
    const { page, errors } = await tested.app.device();
    await page.getByRole("link", { name: "Loose part" }).click();
    await page.getByRole("combobox", { name: "What is it?" }).fill("relay");
    await page.getByRole("option", { name: "relay", exact: true }).click();
    await page.getByLabel(/^poles/).fill("2");
    await page.getByLabel(/^coil/).fill("360R ±10%");
    await page.getByRole("button", { name: "Begin" }).click();
    await page.getByText("Test not finished").waitFor(slow);
    expect(await page.locator(".bench-step").count()).toBe(6);
    // The step that comes next stands open, and it alone.
    const openSteps = page.locator(".bench-step[open] summary span");
    expect(await openSteps.allTextContents()).toEqual(["1. Measure: ohms A1 to A2"]);

    // A coil of 360 Ω ± 10 % (324 to 396 Ω at 20 °C) that comes warm out of its machine.
    const coil = page.locator(".bench-step", { hasText: "ohms A1 to A2" });
    await read(page, "ohms A1 to A2", "415");
    await coil.getByText("415 Ω: bad").waitFor(slow);
    expect(await openSteps.allTextContents()).toEqual(["2. Measure: ohms 11 to 14, coil off"]);
    await page.getByText("Judged for a part at 20 °C").click();
    await page.getByLabel("How warm is the part?").fill("60");
    await page.getByRole("button", { name: "Judge for this" }).click();
    await page.getByText("Judged for a part at 60 °C").waitFor(slow);
    await read(page, "ohms A1 to A2", "416");
    await coil.getByText("416 Ω: good").waitFor(slow);
    await page.getByLabel("How warm is the part?").fill("20");
    await page.getByRole("button", { name: "Judge for this" }).click();
    await page.getByText("Judged for a part at 20 °C").waitFor(slow);

    const all = async (secondPole: () => Promise<void>) => {
      await read(page, "ohms A1 to A2", "371");
      await read(page, "11 to 14, coil off", "OL");
      await read(page, "21 to 24, coil off", "OL");
      await read(page, "then ohms 11 to 14", "0.0");
      await count(page, "then ohms 11 to 14", 20, 0);
      await secondPole();
      await read(page, "insulation of the coil", "OL");
    };
    await all(async () => {
      await read(page, "then ohms 21 to 24", "4.2");
      await count(page, "then ohms 21 to 24", 3, 2);
    });
    await page.getByText("Not for use as it is", { exact: true }).waitFor(slow);
    expect(await page.getByRole("button", { name: "On the shelf" }).isDisabled()).toBe(true);

    await page.getByRole("button", { name: "It was cleaned: test it again" }).click();
    await page.getByText("Test not finished").waitFor(slow);
    await all(async () => {
      await read(page, "then ohms 21 to 24", "0.1");
      await count(page, "then ohms 21 to 24", 20, 0);
    });
    await page
      .getByText("No fault found, as far as these meters can tell, after cleaning", { exact: true })
      .waitFor(slow);
    const pole = page.getByRole("row", { name: /then ohms 21 to 24/ });
    expect(await pole.getByRole("cell").allTextContents()).toEqual([
      expect.stringMatching(/^4\.2 Ω, 3 good of 5: bad/),
      expect.stringMatching(/^0\.1 Ω, 20 good of 20: cannot fault it/),
    ]);
    await page.getByRole("button", { name: "On the shelf" }).click();
    await page.getByText("On the shelf.", { exact: true }).waitFor(slow);
    await page.getByRole("link", { name: "Tag for the shelf" }).click();
    await page.getByRole("img", { name: /Code that opens the record/ }).waitFor(slow);
    await page.getByText("poles 2, coil 360 Ω (324 Ω to 396 Ω)", { exact: true }).waitFor(slow);
    await page.getByText("The tag as a paper, with every test").click();
    const paper = page.frameLocator("iframe");
    await paper.getByText(/^Used part, tested: .*after cleaning\.$/).waitFor(slow);
    await paper.getByText(/then ohms 21 to 24/).waitFor();
    await page.goto(`${tested.app.address}#/shelf`);
    await page
      .locator("a.paper-line", { hasText: "relay" })
      .getByText(/tested/)
      .waitFor(slow);
    await page.goto(tested.app.address);
    await page.getByRole("link", { name: /relay/ }).click();
    await page.getByText("On the shelf.", { exact: true }).waitFor(slow);
    expect(errors).toEqual([]);
  }, 240_000);
});
