import { describe, expect, test } from "vitest";
import { appForAll, slow } from "./app.ts";

const tested = appForAll();

describe("the end of a job", () => {
  test("a mended machine is verified point by point before the job may end, and the end is told plainly", async () => {
    const { page, errors } = await tested.app.device();
    await page.getByRole("link", { name: /hums and does not turn/ }).click();
    await page.getByRole("link", { name: "What can be done" }).click();
    const course = page.locator("section", { has: page.getByRole("heading", { name: /run capacitor/ }) }).first();
    await course.waitFor(slow);
    await course.getByText("Write down that it was done").click();
    await course.getByRole("button", { name: "Done: it works" }).click();
    await page.getByRole("link", { name: "Next step" }).click();
    await page.getByRole("heading", { name: /^Mended \(run capacitor: .*Now verify/ }).waitFor(slow);

    const end = page.getByRole("button", { name: "Mended and verified: end of the job" });
    expect(await end.isDisabled()).toBe(true);
    for (const [question, answer] of [
      ["Does the drum turn?", "yes"],
      ["Does it hum and not turn?", "no"],
    ] as const) {
      const item = page.locator("li", { hasText: `See it: ${question}` });
      await item.getByRole("button", { name: answer, exact: true }).click();
      await item.waitFor({ ...slow, state: "detached" });
    }
    await page.getByRole("heading", { name: /^Verified \(run capacitor/ }).waitFor(slow);
    expect(await end.isDisabled()).toBe(true);
    for (;;) {
      await page.locator(".thinking", { hasText: /^$/ }).waitFor({ ...slow, state: "attached" });
      const todo = page.locator(".tick:enabled[aria-pressed=false]");
      if ((await todo.count()) === 0) break;
      const says = (await todo.first().textContent()) ?? "";
      await todo.first().click();
      await page.locator(".tick:enabled[aria-pressed=true]", { hasText: says }).waitFor(slow);
    }
    await end.click();
    await page.getByRole("heading", { name: "Mended and verified" }).waitFor(slow);
    await page.getByRole("link", { name: /Jobs/ }).click();
    const closed = page.locator("section", { has: page.getByRole("heading", { name: "Closed" }) });
    await closed.getByRole("link", { name: /hums and does not turn/ }).waitFor();
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
    await leave.click();
    await page.getByRole("link", { name: /Jobs/ }).click();
    const waiting = page.locator("section", { has: page.getByRole("heading", { name: "Left waiting, made safe" }) });
    await waiting.getByRole("link", { name: /always damp/ }).click();
    await page.getByRole("button", { name: "Go on with it" }).click();
    await page.getByRole("article").getByRole("button", { name: "Can't do that here" }).waitFor(slow);
    expect(errors).toEqual([]);
  }, 180_000);
});
