import type { Locator } from "playwright-core";
import type { DemoMachine } from "../machines/demo-machine.ts";
import { slow } from "./app.ts";
import type { Keys } from "./keys.ts";
import { shownClosing } from "./shown-view.ts";

/** More keys than this no row of safety tests needs. */
const MOST_KEYS = 25;

/** What a sound machine of class I shows on a good tester; invented for the demonstration, as its cord is. */
const SOUND = { cord: "1.5", section: "1.5 mm²", earthOhms: ["0.08", "0.01"], milliamps: ["0.3", "0.05"] } as const;
/** Top of the range of an insulation tester, megohms (invented). */
const TOP = 20;

/**
 * Makes the safety tests of the room that is shown, in the order in which it asks for them.
 *
 * @param until  "energising": those that come before anything repaired is plugged in again
 */
export async function makeTests(keys: Keys, machine: DemoMachine, until: "energising" | "the end"): Promise<void> {
  const { page } = keys;
  await page.locator("main.closing fieldset").first().waitFor(slow);
  for (let n = 0; n < MOST_KEYS; n++) {
    await keys.settled();
    const { mayEnergise, verdict, putBack, setting } = await shownClosing(page);
    const owed = putBack.findIndex(({ isBack }) => !isBack);
    if (owed >= 0) {
      const kind = putBack[owed]?.kind === "cover" ? "closed" : "ticked";
      await keys.press(page.locator("ul.verify .tick").nth(owed), kind);
    } else if (setting === undefined) await begin(keys);
    else if (verdict === "pass" || (until === "energising" && mayEnergise)) return;
    else await makeNext(keys, machine);
  }
  throw new Error("the row of safety tests comes to no end");
}

async function begin(keys: Keys): Promise<void> {
  const { page } = keys;
  await page.getByRole("radio", { name: /code of practice, 4th edition/ }).check(slow);
  await page.getByLabel("Cord, metres").fill(SOUND.cord);
  await page.getByRole("radio", { name: SOUND.section, exact: true }).check();
  await page.getByLabel("Instrument").fill("safety tester no. 2");
  await page.getByLabel("Last calibrated").fill("2025-11-20");
  await keys.press(page.getByRole("button", { name: "Begin the tests" }), "safety");
}

/** The test whose card is open: the plug as it must be, then its value. */
async function makeNext(keys: Keys, machine: DemoMachine): Promise<void> {
  const card = keys.page.locator("details.test.here");
  const key = (name: string) => card.getByRole("button", { name, exact: true });
  if (await isThere(key("Plug out, I proved it dead"))) await keys.press(key("Plug out, I proved it dead"), "isolated");
  else if (await isThere(key("Plug in, RCD lead"))) await keys.press(key("Plug in, RCD lead"), "energised");
  else if (await isThere(key("Pass"))) await keys.press(key("Pass"), "tested");
  else {
    await enterValue(card, machine);
    await keys.press(key("Write down"), "tested");
  }
}

async function enterValue(card: Locator, machine: DemoMachine): Promise<void> {
  if (await isThere(card.getByLabel("Shown, MΩ"))) {
    const megohms = machine.insulationOhms() / 1e6;
    await card.getByLabel("Shown, MΩ").fill(String(Math.min(TOP, megohms)));
    if (megohms > TOP) await card.getByLabel("Above the top of the range").check();
    else await card.getByLabel("± of it, MΩ").fill(String(megohms / 20));
    return;
  }
  const isEarth = await isThere(card.getByLabel("Shown, Ω"));
  const [value, spread] = isEarth ? SOUND.earthOhms : SOUND.milliamps;
  const unit = isEarth ? "Ω" : "mA";
  await card.getByLabel(`Shown, ${unit}`).fill(value);
  await card.getByLabel(`± of it, ${unit}`).fill(spread);
}

async function isThere(one: Locator): Promise<boolean> {
  return (await one.count()) > 0;
}

/** Answers what hands and eyes find at the door, and ends the job as mended. */
export async function leaveMended(keys: Keys): Promise<void> {
  const { page } = keys;
  await page.getByRole("link", { name: "Close-out", exact: true }).tap();
  await page.getByRole("heading", { level: 1, name: "Close-out" }).waitFor(slow);
  await page.locator("fieldset.yes-no").first().waitFor(slow);
  const questions = page.locator("fieldset.yes-no");
  for (let n = 0; n < (await questions.count()); n++) {
    await keys.settled();
    await keys.press(questions.nth(n).getByRole("button", { name: "Yes", exact: true }), "checked");
  }
  await page.getByText("Nothing keeps this job open").waitFor(slow);
  await keys.settled();
  await keys.press(page.getByRole("button", { name: "Mended and verified: end of the job" }), "closes");
  await page.getByText("Closed: mended and verified.").waitFor(slow);
  await page.getByRole("link", { name: "‹ Job", exact: true }).tap();
}
