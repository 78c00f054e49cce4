import { describe, expect, test } from "vitest";
import { appForAll, slow } from "./app.ts";
import { mendedDryer } from "./mended.ts";

const tested = appForAll();

describe("the end of a job", () => {
  test("a mended machine is verified point by point, and its end leads through the safety tests", async () => {
    const { page, errors } = await tested.app.device();
    await mendedDryer(page);
    await page.getByRole("heading", { name: /^Mended \(run capacitor: .*Now verify/ }).waitFor(slow);

    const end = page.getByRole("button", { name: "Mended and verified: end of the job" });
    expect(await end.count()).toBe(0);
    for (const [question, answer] of [
      ["Does the drum turn?", "yes"],
      ["Does it hum and not turn?", "no"],
    ] as const) {
      const item = page.locator("li", { hasText: `See it: ${question}` });
      await item.getByRole("button", { name: answer, exact: true }).click();
      await item.waitFor({ ...slow, state: "detached" });
    }
    await page.getByRole("heading", { name: /^Verified \(run capacitor/ }).waitFor(slow);
    await page.getByText("Clear what the display has stored").waitFor();
    await page.getByRole("link", { name: "Tested after repair, and close-out" }).click();
    await page.getByRole("link", { name: "Close-out" }).click();
    await end.waitFor(slow);
    expect(await end.isDisabled()).toBe(true);
    await page.getByText("the safety tests: not begun").waitFor();
    expect(errors).toEqual([]);
  }, 180_000);

  test("who opened nothing and put right what a customer may ends the job without a safety test", async () => {
    const { page, errors } = await tested.app.device();
    await page.getByRole("link", { name: /hums and does not turn/ }).click();
    await page.getByText("Something done").click(slow);
    await page.getByRole("combobox", { name: "To which part" }).fill("lint");
    await page.getByRole("option", { name: /lint/ }).first().click();
    await page.getByLabel("What was done").fill("filter cleaned");
    await page.getByRole("button", { name: "Done: it works" }).last().click();
    await page.getByRole("heading", { name: /^(Mended|Verified) / }).waitFor(slow);
    await page.getByRole("button", { name: "Mended and verified: end of the job" }).waitFor(slow);
    expect(await page.getByRole("link", { name: "Tested after repair, and close-out" }).count()).toBe(0);
    expect(errors).toEqual([]);
  }, 180_000);

  test("a job may be left waiting only when the machine was made safe, and be gone on with", async () => {
    const { page, errors } = await tested.app.device();
    await page.getByRole("link", { name: /always damp/ }).click();
    await page.getByRole("link", { name: "What can be done" }).click();
    const leave = page.getByRole("button", { name: "Leave it waiting, made safe" });
    await leave.waitFor(slow);
    expect(await leave.isDisabled()).toBe(true);
    for (const says of ["Every connector is back on", "It stands unplugged"]) {
      await page.getByRole("button", { name: says }).click();
      await page.locator(".tick:enabled[aria-pressed=true]", { hasText: says }).waitFor(slow);
    }
    expect(await leave.isDisabled()).toBe(true);
    await page.getByLabel("Who or what is waited for").fill("a drum seal");
    await leave.click();
    await page.getByRole("link", { name: /Jobs/ }).click();
    const waiting = page.locator("section", { has: page.getByRole("heading", { name: "Left waiting, made safe" }) });
    await waiting.getByRole("link", { name: /always damp/ }).click();
    await page.getByRole("button", { name: "Go on with it" }).click();
    await page.getByRole("article").getByRole("button", { name: "Can't do that here" }).waitFor(slow);
    expect(errors).toEqual([]);
  }, 180_000);
});
