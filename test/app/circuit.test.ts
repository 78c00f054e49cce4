import { expect, test } from "vitest";
import { amiss } from "./amiss.ts";
import { appForAll, slow } from "./app.ts";

const tested = appForAll();

test("the whole circuit is reached from the step, told by branches, and any two points of it are measured", async () => {
  const { page, errors } = await tested.app.device({ isPhone: true });
  await page.getByRole("link", { name: /turns but stays cold/ }).tap();
  await page.getByRole("link", { name: "The whole circuit" }).tap(slow);
  const row = page.locator(".branch-row", { hasText: "this step" }).first();
  await row.waitFor(slow);
  // Hatched by its odds in the drawing; the same in words in the list, in the order of the current.
  expect(await row.locator("[class*=possible-]").count()).toBeGreaterThan(0);
  await row.tap();
  const run = page.locator(".run").first();
  const told = await run.locator("li:not([aria-hidden])").allTextContents();
  const places = ["heater relay", "heater, tab", "heater · possible fault", "self-resetting cut-out"].map((says) =>
    told.findIndex((line) => line.includes(says)),
  );
  expect(places).toEqual([...places].sort((a, b) => a - b));
  expect(places[0]).toBeGreaterThanOrEqual(0);
  expect(told.filter((line) => line.includes("probe here")).length).toBeGreaterThanOrEqual(2);
  expect(await amiss(page)).toEqual([]);

  await page.getByRole("button", { name: "Larger" }).tap();
  expect(await page.locator(".branch-row text").first().isVisible()).toBe(true);
  expect(await page.evaluate("document.scrollingElement.scrollWidth <= innerWidth + 1")).toBe(true);

  // Without a finger, too.
  for (const point of ["connector X3, pin 1 (red) · probe here", "connector X3, pin 3 (blue) · probe here"]) {
    const key = run.getByRole("button", { name: point, exact: true });
    await key.focus();
    await page.keyboard.press("Enter");
    expect(await key.getAttribute("aria-pressed")).toBe("true");
  }
  await page.getByText("From connector X3, pin 1 (red) to connector X3, pin 3 (blue).").waitFor();
  const offered = async () => {
    await page.getByRole("combobox", { name: "What is measured" }).click();
    const all = await page.getByRole("option").allTextContents();
    await page.keyboard.press("Escape");
    return all;
  };
  expect((await offered()).some((what) => what.includes("LIVE"))).toBe(true);
  // Between a rail of the board and the mains nothing is measured live.
  await page.locator(".branch-row", { hasText: "temperature sensor" }).tap();
  const rail = page.locator(".run").last().locator("button").first();
  await rail.tap();
  await page.getByText("only with the plug out and proved dead, never live").waitFor();
  expect((await offered()).some((what) => what.includes("LIVE"))).toBe(false);
  await run.getByRole("button", { name: "connector X3, pin 1 (red) · probe here", exact: true }).tap();
  await page.getByLabel("The meter shows").fill("47");
  await page.getByRole("button", { name: "Write down", exact: true }).tap();
  await page.getByRole("link", { name: "Job history" }).tap();
  await page.locator(".event", { hasText: "47 Ω" }).first().waitFor(slow);
  expect(errors).toEqual([]);
}, 120_000);

test("a sheet shows its circuit without a job", async () => {
  const { page, errors } = await tested.app.device();
  await page.goto(`${tested.app.address}#/sheets/washing-machine`);
  await page.getByText("Show it, branch by branch").click(slow);
  await page.getByRole("button", { name: /^drain pump/ }).click();
  await page.locator(".run li", { hasText: "drain pump" }).first().waitFor();
  expect(await page.locator(".run button").count()).toBe(0);
  expect(await amiss(page)).toEqual([]);
  expect(errors).toEqual([]);
}, 120_000);
