import { describe, expect, test } from "vitest";
import { amiss } from "./amiss.ts";
import { appForAll, slow } from "./app.ts";

const tested = appForAll();

describe("in every theme", () => {
  test("nothing on any screen is against WCAG 2.2 AA, and text twice as large breaks none", async () => {
    const { page } = await tested.app.device();
    await page.getByRole("link", { name: "Settings" }).click();
    for (const [name, theme] of [
      ["dark", "dark"],
      ["high contrast", "contrast"],
      ["light", "light"],
    ] as const) {
      await page.getByRole("radio", { name, exact: true }).click();
      await page.locator(`html[data-theme="${theme}"]`).waitFor({ ...slow, state: "attached" });
    }
    const found: Record<string, readonly string[]> = { settings: await amiss(page) };
    await page.getByRole("link", { name: "Jobs" }).click();
    await page.getByRole("link", { name: /turns but stays cold/ }).waitFor();
    found.jobs = await amiss(page);
    await page.getByRole("button", { name: "New job" }).click();
    await page.locator(".machine").first().waitFor();
    found.new = await amiss(page);
    await page.getByRole("link", { name: /Jobs/ }).click();
    await page.getByRole("link", { name: /turns but stays cold/ }).click();
    await page.getByRole("article").waitFor(slow);
    found.next = await amiss(page);
    for (const tab of ["Possible faults", "What can be done", "Job history"]) {
      await page.getByRole("link", { name: tab }).click();
      await page.getByRole("heading", { level: 1, name: tab }).waitFor();
      found[tab] = await amiss(page);
    }
    await page.getByRole("link", { name: "What can be done" }).click();
    await page.getByRole("link", { name: "Show the customer" }).click();
    await page.getByRole("table").waitFor(slow);
    found.choices = await amiss(page);
    await page
      .getByRole("link", { name: /^Accept: / })
      .first()
      .click();
    await page.getByRole("img", { name: /^Sign here/ }).waitFor(slow);
    found.sign = await amiss(page);
    const at = tested.app.address;
    await page.goto(`${at}#/bench/new`);
    await page.getByRole("combobox", { name: "What is it?" }).fill("relay");
    await page.getByRole("option", { name: "relay", exact: true }).click();
    found.newPart = await amiss(page);
    await page.getByRole("button", { name: "Begin" }).click();
    await page.getByText("Test not finished").waitFor(slow);
    await page.getByRole("button", { name: "It was cleaned: test it again" }).click();
    await page.getByRole("heading", { name: "Before and after" }).waitFor(slow);
    found.bench = await amiss(page);
    await page.getByRole("link", { name: "Tag for the shelf" }).click();
    await page.getByRole("img", { name: /Code that opens/ }).waitFor(slow);
    found.tag = await amiss(page);
    await page.goto(`${at}#/sheets/tumble-dryer`);
    await page.getByRole("heading", { level: 1, name: "tumble dryer" }).waitFor(slow);
    await page.locator("summary").first().click();
    found.sheet = await amiss(page);
    await page.goto(`${at}#/`);
    await page.getByRole("link", { name: /hums and does not turn/ }).click();
    await page.getByRole("button", { name: "On the telephone" }).click(slow);
    await page.getByText("One visit ends it: ").waitFor(slow);
    found.telephone = await amiss(page);
    await page.getByRole("button", { name: "At the machine" }).click();
    await page.getByRole("link", { name: "What can be done" }).click();
    const course = page.locator("section", { has: page.getByRole("heading", { name: /run capacitor/ }) }).first();
    await course.getByText("Write down that it was done").click();
    await course.getByRole("button", { name: "Done: it works" }).click();
    await page.getByRole("link", { name: "Next step" }).click();
    await page.getByRole("heading", { name: /^Mended/ }).waitFor(slow);
    await page.locator(".thinking", { hasText: /^$/ }).waitFor({ ...slow, state: "attached" });
    found.verify = await amiss(page);
    await page.goto(`${at}#/`);
    await page.getByRole("button", { name: "Take the demonstration's jobs away" }).click();
    await page.getByRole("link", { name: /turns but stays cold/ }).waitFor({ state: "detached" });
    found.away = await amiss(page);
    expect(found).toEqual(Object.fromEntries(Object.keys(found).map((screen) => [screen, []])));
  }, 240_000);
});
