import { describe, expect, test } from "vitest";
import { appForAll, slow } from "./app.ts";

const tested = appForAll();

describe("wiring sheets", () => {
  test("one look chooses another machine, and its good values are shown place by place", async () => {
    const { page, errors } = await tested.app.device();
    await page.getByRole("link", { name: "Wiring sheets" }).click();
    await page.getByRole("link", { name: "tumble dryer" }).click();
    await page.getByRole("heading", { level: 1, name: "tumble dryer" }).waitFor(slow);
    await page
      .getByText(/How many wires does the heater have/)
      .first()
      .or(page.locator("summary").first())
      .first()
      .click();
    const other = page.locator(".look-key[aria-pressed=false]:visible").first();
    const variant = (await other.locator("b").textContent()) ?? "";
    await other.click();
    await page.locator(".look-key[aria-pressed=true]:visible", { hasText: variant }).waitFor(slow);
    await page.getByRole("button", { name: "Show it, place by place" }).click();
    const plug = page.locator("summary", { hasText: "Mains plug, nothing opened" });
    await plug.waitFor(slow);
    await plug.click();
    await page.getByText("plug.L", { exact: false }).first().waitFor();
    expect(errors).toEqual([]);
  }, 180_000);

  test("a machine without a sheet is a branch made on the phone, and works like any job", async () => {
    const { page, errors } = await tested.app.device();
    await page.getByRole("button", { name: "New job" }).click();
    await page.getByRole("radio", { name: "Another machine" }).click();
    await page.getByLabel("What does the customer say").fill("hot plate stays cold");
    await page.getByRole("button", { name: "Begin" }).click();
    await page.getByText("Put at least one part into the branch.").waitFor();
    for (const [kind, rating] of [
      ["thermostat", ""],
      ["heater (heater)", "1500 W"],
    ] as const) {
      await page.getByRole("combobox", { name: "Add a part" }).fill(kind);
      await page.getByRole("option", { name: kind, exact: true }).click();
      if (rating !== "") await page.getByLabel(/^power \(blank/).fill(rating);
      await page.getByRole("button", { name: "Put it into the branch" }).click();
    }
    await page.getByText("2. heater (heater) P 1500 W").waitFor();
    await page.getByRole("button", { name: "Begin" }).click();
    await page.getByRole("article").waitFor(slow);
    await page.getByRole("link", { name: "Possible faults" }).click();
    await page.locator(".fault-name", { hasText: "heater" }).first().waitFor(slow);
    expect(errors).toEqual([]);
  }, 180_000);

  test("what differs on this machine is kept with the job, and the part is gone from its possible faults", async () => {
    const { page, errors } = await tested.app.device();
    await page.getByRole("link", { name: /hums and does not turn/ }).click();
    await page.getByRole("link", { name: "Possible faults" }).click();
    const capacitor = page.locator(".fault-name", { hasText: /^run capacitor$/ });
    await capacitor.waitFor(slow);
    await page.getByRole("link", { name: "Next step" }).click();
    await page.getByText("Mine differs").first().click();
    await page.getByRole("combobox", { name: "To which part" }).first().fill("run capacitor");
    await page.getByRole("option", { name: "run capacitor", exact: true }).first().click();
    await page.getByRole("button", { name: "Keep it with this job" }).click();
    await page.locator(".thinking.on").waitFor(slow);
    await page.locator(".thinking", { hasText: /^$/ }).waitFor({ ...slow, state: "attached" });
    await page.getByRole("link", { name: "Possible faults" }).click();
    await page.locator(".fault-name").first().waitFor(slow);
    expect(await capacitor.count()).toBe(0);
    expect(errors).toEqual([]);
  }, 180_000);
});
