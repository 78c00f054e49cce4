import { expect, test } from "vitest";
import { type Random, seeded } from "../../src/core/chance/index.ts";
import { appForAll, slow } from "./app.ts";
import { kept } from "./kept.ts";

const tested = appForAll();

const KILLS = 50;
/** A write takes some milliseconds: kills fall before it, within it and after it. */
const LONGEST_WAIT_MS = 40;

const whole = (random: Random, below: number): number => Math.floor(random.uniform() * below);

test(`a tab killed at ${KILLS} random moments loses no event that the screen had told of, and halves none`, async () => {
  const random = seeded("kill");
  const { context, page: first } = await tested.app.device();
  await first.getByRole("button", { name: "New job" }).click();
  // A branch of one part: the engine has next to nothing to work out, so that the tab is killed at its writing.
  await first.getByRole("radio", { name: /one branch/ }).click();
  await first.getByRole("combobox", { name: "Add a part" }).fill("switch");
  await first.getByRole("option").first().click();
  await first.getByRole("button", { name: "Put it into the branch" }).click();
  await first.getByLabel("What does the customer say").fill("stays dark");
  await first.getByRole("button", { name: "Begin" }).click();
  await first.getByRole("link", { name: "Job history", exact: true }).click();
  await first.getByLabel("Add a note").waitFor(slow);
  const address = first.url();
  let before = await kept(first);
  await first.close();

  const told = new Set<string>();
  const outcomes = { written: 0, lost: 0 };
  for (let kill = 0; kill < KILLS; kill++) {
    const page = await context.newPage();
    await page.goto(address);
    await page.getByLabel("Add a note").waitFor(slow);
    const now = await kept(page);
    // What was there is there still, unchanged.
    const byId = new Map(now.map((event) => [event.id, event]));
    for (const event of before) expect(byId.get(event.id)).toEqual(event);
    const notes = new Set(now.filter(({ kind }) => kind === "note").map(({ body }) => String(body)));
    for (const note of told) expect(notes).toContain(note);
    if (kill > 0) outcomes[notes.has(`note ${kill - 1}`) ? "written" : "lost"]++;
    before = now;

    const back = whole(random, 3) === 0 ? page.getByRole("button", { name: "Take back" }) : undefined;
    if (back !== undefined && (await back.count()) > 0) {
      const crossed = await page.getByText("taken back", { exact: true }).count();
      await back.nth(whole(random, await back.count())).click();
      await expect.poll(() => page.getByText("taken back", { exact: true }).count()).toBe(crossed + 1);
    }
    const note = `note ${kill}`;
    await page.getByLabel("Add a note").fill(note);
    await page.getByRole("button", { name: "Add", exact: true }).click({ noWaitAfter: true });
    const line = page.locator(".event", { hasText: new RegExp(`note: ${note}\\D`) });
    if (whole(random, 3) === 0) await line.waitFor(slow);
    else await new Promise((resolve) => setTimeout(resolve, random.uniform() * LONGEST_WAIT_MS));
    if ((await line.count()) > 0) told.add(note);
    await page.close();
  }
  // Some kills came after the screen had told of the event: else nothing was tried.
  expect(told.size).toBeGreaterThan(0);
  expect(outcomes.written).toBeGreaterThanOrEqual(told.size - 1);
}, 300_000);
