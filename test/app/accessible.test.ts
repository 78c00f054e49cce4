import axe from "axe-core";
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { appForAll, slow } from "./app.ts";

const tested = appForAll();

/** Violations of WCAG 2.2 A and AA, as axe finds them: rule and element. */
async function violations(page: Page): Promise<readonly string[]> {
  await page.evaluate(axe.source);
  return await page.evaluate(
    `axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] }).then(({ violations }) =>
      violations.flatMap(({ id, nodes }) => nodes.map(({ target }) => id + " " + target.join(" "))))`,
  );
}

describe.each(["light", "dark", "high contrast"])("in the %s theme", (theme) => {
  test("axe finds nothing against WCAG 2.2 AA on any screen", async () => {
    const { page } = await tested.app.device();
    await page.getByRole("link", { name: "Settings" }).click();
    await page.getByRole("radio", { name: theme, exact: true }).click();
    const found: Record<string, readonly string[]> = { settings: await violations(page) };
    await page.getByRole("link", { name: "Jobs" }).click();
    await page.getByRole("link", { name: /turns but stays cold/ }).waitFor();
    found.jobs = await violations(page);
    await page.getByRole("button", { name: "New job" }).click();
    await page.locator(".machine").first().waitFor();
    found.new = await violations(page);
    await page.getByRole("link", { name: /Jobs/ }).click();
    await page.getByRole("link", { name: /turns but stays cold/ }).click();
    await page.getByRole("article").waitFor(slow);
    found.next = await violations(page);
    for (const tab of ["Possible faults", "What can be done", "Job history"]) {
      await page.getByRole("link", { name: tab }).click();
      await page.getByRole("heading", { level: 1, name: tab }).waitFor();
      found[tab] = await violations(page);
    }
    const at = tested.app.address;
    await page.goto(`${at}#/bench/new`);
    await page.getByRole("combobox", { name: "What is it?" }).fill("relay");
    await page.getByRole("option", { name: "relay", exact: true }).click();
    found.newPart = await violations(page);
    await page.getByRole("button", { name: "Begin" }).click();
    await page.getByText("Test not finished").waitFor(slow);
    await page.locator(".bench-step summary").first().click();
    await page.getByRole("button", { name: "It was cleaned: test it again" }).click();
    await page.getByRole("heading", { name: "Before and after" }).waitFor(slow);
    found.bench = await violations(page);
    await page.getByRole("link", { name: "Tag for the shelf" }).click();
    await page.getByRole("img", { name: /Code that opens/ }).waitFor(slow);
    found.tag = await violations(page);
    await page.goto(`${at}#/sheets/tumble-dryer`);
    await page.getByRole("heading", { level: 1, name: "tumble dryer" }).waitFor(slow);
    await page.locator("summary").first().click();
    found.sheet = await violations(page);
    await page.goto(`${at}#/`);
    await page.getByRole("link", { name: /hums and does not turn/ }).click();
    await page.getByRole("button", { name: "On the telephone" }).click();
    await page.getByText("One visit ends it: ").waitFor(slow);
    found.telephone = await violations(page);
    await page.getByRole("button", { name: "At the machine" }).click();
    await page.getByRole("link", { name: "What can be done" }).click();
    const course = page.locator("section", { has: page.getByRole("heading", { name: /run capacitor/ }) }).first();
    await course.getByText("Write down that it was done").click();
    await course.getByRole("button", { name: "Done: it works" }).click();
    await page.getByRole("link", { name: "Next step" }).click();
    await page.getByRole("heading", { name: /^Mended/ }).waitFor(slow);
    await page.locator(".thinking", { hasText: /^$/ }).waitFor({ ...slow, state: "attached" });
    found.verify = await violations(page);
    await page.goto(`${at}#/`);
    await page.getByRole("button", { name: "Take the demonstration's jobs away" }).click();
    await page.getByText("No job yet.").waitFor();
    found.empty = await violations(page);
    expect(found).toEqual(Object.fromEntries(Object.keys(found).map((screen) => [screen, []])));
  }, 240_000);
});
