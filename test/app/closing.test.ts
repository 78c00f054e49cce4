import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { amiss } from "./amiss.ts";
import { appForAll, slow } from "./app.ts";
import { mendedDryer } from "./mended.ts";
import { saved } from "./saved.ts";

const tested = appForAll();

/** Nothing is being worked out any more. */
async function settled(page: Page): Promise<void> {
  await page.locator(".thinking", { hasText: /^$/ }).waitFor({ ...slow, state: "attached" });
}

/** The demonstration's dryer that hums, its run capacitor mended, on the page of the tests. */
async function mended(page: Page): Promise<void> {
  await mendedDryer(page);
  await page.getByRole("link", { name: "Tested after repair, and close-out" }).click(slow);
  await page.getByRole("heading", { name: "Tested after repair" }).waitFor(slow);
}

/** By whose rules, on what, with what; then the plug out. */
async function begun(page: Page): Promise<void> {
  await page.getByRole("radio", { name: /code of practice, 4th edition/ }).click(slow);
  await page.getByText("second-hand: its clauses were not read").first().waitFor();
  await page.getByLabel("Cord, metres").fill("1,5");
  await page.getByRole("radio", { name: "1.5 mm²" }).click();
  await page.getByLabel("Instrument").fill("safety tester no. 2");
  await page.getByLabel("Last calibrated").fill("2025-11-20");
  await page.getByRole("button", { name: "Begin the tests" }).click();
  const card = page.locator("details", { has: page.locator("summary", { hasText: /^look/ }) });
  await card.getByRole("button", { name: "Plug out, I proved it dead" }).click(slow);
  await passed(page, "look");
}

async function passed(page: Page, name: string): Promise<void> {
  const card = page.locator("details.test", { has: page.locator("summary", { hasText: new RegExp(`^${name}`) }) });
  await card.getByRole("button", { name: "Pass", exact: true }).click(slow);
  await said(page, name, "pass");
}

async function said(page: Page, name: string, verdict: string): Promise<void> {
  await page.locator("details.test summary", { hasText: new RegExp(`^${name}${verdict}`) }).waitFor(slow);
  await settled(page);
}

async function measured(page: Page, unit: string, value: string, spread?: string): Promise<void> {
  await page.getByLabel(`Shown, ${unit}`).fill(value, slow);
  if (spread === undefined) await page.getByLabel("Above the top of the range").click();
  else await page.getByLabel(`± of it, ${unit}`).fill(spread);
  await page.getByRole("button", { name: "Write down" }).click();
}

async function seenRight(page: Page): Promise<void> {
  for (const [question, answer] of [
    ["Does the drum turn?", "yes"],
    ["Does it hum and not turn?", "no"],
  ] as const) {
    const item = page.locator("li", { hasText: `See it: ${question}` });
    await item.getByRole("button", { name: answer, exact: true }).click(slow);
    await item.waitFor({ ...slow, state: "detached" });
  }
}

/** What a thumb cannot press: lower or narrower than 44 px. */
async function tooSmall(page: Page): Promise<readonly string[]> {
  return await page.evaluate(`[...document.querySelectorAll("main button, main summary, main a, nav a, header button")]
    .filter((one) => one.offsetParent !== null && !one.closest("p:not(:has(> .way))")?.contains(one))
    .map((one) => [one.textContent, one.getBoundingClientRect()])
    .filter(([, { height, width }]) => height > 0 && (height < 43.9 || width < 43.9))
    .map(([says, { height, width }]) => says + " " + width + " x " + height)`);
}

const end = (page: Page) => page.getByRole("button", { name: "Mended and verified: end of the job" });

describe("from the repair to the door", () => {
  test("a dryer goes from possible faults to a choice, is mended, tested in the order of the rules, seen to work, closed and paid; a reload in the middle loses nothing", async () => {
    const { page, errors } = await tested.app.device();
    await page.getByRole("link", { name: /hums and does not turn/ }).click();
    await page.getByRole("link", { name: "Possible faults" }).click();
    await page
      .getByText(/run capacitor/)
      .first()
      .waitFor(slow);
    await page.getByRole("link", { name: "What can be done" }).click();
    await page.getByRole("link", { name: "Show the customer" }).click(slow);
    await page
      .getByRole("link", { name: /^Accept: .*run capacitor/ })
      .first()
      .click(slow);
    await page.getByRole("button", { name: "Agreed without a signature" }).click(slow);
    await page.getByRole("heading", { name: "Agreed", exact: true }).waitFor(slow);
    await page.getByRole("link", { name: "Back to the job" }).click();
    await page.getByRole("link", { name: "Jobs" }).click(slow);
    await mended(page);
    await begun(page);
    await page.getByText(/Limit: at most 0\.12 Ω \(Table A5\.1\)/).waitFor();
    await measured(page, "Ω", "0.08", "0.01");
    await said(page, "earth conductor", "pass · 0.08 Ω ±0.01 Ω");
    expect(await page.locator(".state strong").textContent()).toBe("PLUG OUT");
    expect(await page.getByRole("button", { name: "Plug in, RCD lead" }).count()).toBe(0);

    await page.reload();
    await said(page, "earth conductor", "pass · 0.08 Ω ±0.01 Ω");
    await page.getByText("safety tester no. 2").waitFor();
    await measured(page, "MΩ", "20");
    await said(page, "insulation", "pass · above 20 MΩ");
    await page.locator("details.test summary", { hasText: /^insulation/ }).click();
    await page.getByRole("heading", { name: "What the insulation test at the plug does not reach" }).waitFor();

    // Only now may it be plugged in; and the state tells it.
    await page.getByRole("main").getByRole("button", { name: "Plug in, RCD lead" }).click();
    await page.locator(".state strong", { hasText: "LIVE" }).waitFor(slow);
    await page.getByRole("link", { name: "‹ Job", exact: true }).click();
    await seenRight(page);
    await page.getByRole("link", { name: "Tested after repair, and close-out" }).click(slow);
    await measured(page, "mA", "0.3", "0.05");
    await said(page, "protective conductor current", "pass · 0.3 mA ±0.05 mA");
    await passed(page, "function");
    await page.getByText("All passed: safe to plug in").waitFor(slow);

    await page.getByRole("link", { name: "Close-out" }).click();
    expect(await end(page).isDisabled()).toBe(true);
    const questions = page.locator("fieldset.yes-no");
    expect(await questions.count()).toBe(4);
    for (let n = 0; n < 4; n++) {
      await settled(page);
      await questions.nth(n).getByRole("button", { name: "Yes" }).click();
      await questions.nth(n).getByRole("button", { name: "Yes", pressed: true }).waitFor(slow);
    }
    await page.getByText("Nothing keeps this job open").waitFor(slow);
    await end(page).click();
    await page.getByText("Closed: mended and verified.").waitFor(slow);
    await page.getByRole("link", { name: "‹ Job", exact: true }).click();
    await page.getByRole("heading", { name: "Mended and verified" }).waitFor(slow);

    await page.getByRole("main").getByRole("link", { name: "Papers and money" }).click();
    await page.getByRole("link", { name: "Write down who" }).first().click(slow);
    const customer = page.getByRole("form", { name: "Customer", exact: true });
    await customer.getByLabel("Name").fill("A. Sample");
    await customer.getByRole("button", { name: "Write it down" }).click();
    await customer.getByText("Written down.").waitFor(slow);
    await page.getByRole("link", { name: "Back to the papers" }).click();
    await page.getByRole("link", { name: /^Guarantee/ }).waitFor(slow);
    await page.getByRole("link", { name: /^Invoice/ }).click(slow);
    await page
      .frameLocator("iframe")
      .getByText(/^Please pay /)
      .waitFor(slow);
    await page.getByRole("button", { name: "Hand it over" }).click(slow);
    await page.getByRole("link", { name: "Take a payment" }).click(slow);
    await page.getByRole("button", { name: "Write down the payment" }).click(slow);
    await page.getByText("Everything is paid").waitFor(slow);
    await page.getByRole("link", { name: "Back to the job" }).click();
    await page.getByRole("link", { name: /Jobs/ }).click();
    const closed = page.locator("section", { has: page.getByRole("heading", { name: "Closed" }) });
    await closed.getByRole("link", { name: /hums and does not turn/ }).waitFor();
    expect(errors).toEqual([]);
  }, 240_000);

  test("a failed insulation test stops the row, shuts the close-out and says what to do; begun anew by keyboard it opens", async () => {
    const { page, errors } = await tested.app.device({ width: 1280, height: 800, dark: true });
    await mended(page);
    await begun(page);
    await measured(page, "Ω", "0.08", "0.01");
    await said(page, "earth conductor", "pass");
    await measured(page, "MΩ", "0.05", "0.01");
    const stop = page.getByRole("alert").filter({ hasText: "insulation: failed. Stop here." });
    await stop.getByText("It stays unplugged").waitFor(slow);
    await stop.getByText("the heater first").waitFor();
    await page.getByText("Failed: not to be plugged in.").waitFor();
    expect(await page.getByRole("button", { name: "Plug in, RCD lead" }).count()).toBe(0);
    await page.getByRole("link", { name: "Close-out" }).click();
    await page
      .getByText("insulation: failed. It stays unplugged; put it right, then begin again with the look.")
      .waitFor();
    expect(await end(page).isDisabled()).toBe(true);
    await settled(page);
    await page.getByRole("link", { name: "‹ Job", exact: true }).click();
    await page.getByRole("alert").filter({ hasText: "A safety test failed. It stays unplugged" }).waitFor(slow);
    await page.getByRole("link", { name: "Tested after repair, and close-out" }).click(slow);
    await page.getByText("A test failed: it stays unplugged.").waitFor(slow);

    await page.getByRole("link", { name: "Tested after repair" }).focus();
    await page.keyboard.press("Enter");
    const again = page.getByRole("button", { name: "Pass", exact: true });
    await again.waitFor(slow);
    await again.focus();
    await page.keyboard.press("Enter");
    await page.getByLabel("Shown, Ω").waitFor(slow);
    await page.getByLabel("Shown, Ω").focus();
    await page.keyboard.type("0,08");
    await page.keyboard.press("Tab");
    await page.keyboard.type("0,01");
    await page.keyboard.press("Enter");
    await page.getByLabel("Shown, MΩ").waitFor(slow);
    await page.getByLabel("Shown, MΩ").focus();
    await page.keyboard.type("5");
    await page.keyboard.press("Tab");
    await page.keyboard.type("0.2");
    await page.keyboard.press("Enter");
    await said(page, "insulation", "pass · 5 MΩ ±0.2 MΩ");
    await page.getByRole("link", { name: "Close-out" }).click();
    expect(await page.getByText("insulation: failed").count()).toBe(0);
    expect(errors).toEqual([]);
  }, 240_000);

  test("seen to run before earth and insulation: the gate is shut until the tests begin anew, and the record names it", async () => {
    const { page, errors } = await tested.app.device();
    await mended(page);
    await page.getByRole("link", { name: "‹ Job", exact: true }).click();
    await page.getByRole("button", { name: "Plug out, I proved it dead" }).click(slow);
    await page.getByRole("link", { name: "Before plugging in: look, earth, insulation" }).waitFor(slow);
    await seenRight(page);
    await page.getByRole("link", { name: "Tested after repair, and close-out" }).click(slow);
    const early = page.getByText("It was plugged in after the repair before look, earth and insulation had passed.");
    await early.waitFor(slow);
    await page.getByText("begin the tests again with the look").waitFor();
    await page.getByRole("link", { name: "Close-out" }).click();
    await page
      .getByText(
        /plugged in after the repair before look, earth and insulation had passed, or after a failed test\. Unplug it/i,
      )
      .waitFor();
    await page.getByRole("link", { name: "Tested after repair" }).click();
    await begun(page);
    await page.getByText("begin the tests again with the look").waitFor({ ...slow, state: "detached" });
    expect(await early.count()).toBe(1);
    expect(errors).toEqual([]);
  }, 240_000);

  test("operations are an event each, a log is read, drawn and kept, and what is not proved is named; all of it after a reload too", async () => {
    const { page, errors } = await tested.app.device();
    await mended(page);
    await page.getByRole("link", { name: "Proof" }).click();
    for (let n = 1; n <= 3; n++) {
      await page.getByRole("button", { name: "Good", exact: true }).click();
      await page.getByText(`${n} good of ${n}.`).waitFor(slow);
    }
    await page.getByText(/Go on: about 11 more, about 3 minutes of work, 4 EUR/).waitFor();
    await page.getByText(/^Changing it instead: .* in all about \d+ EUR with the part\./).waitFor();
    await page.getByRole("button", { name: "Bad", exact: true }).click();
    await page.getByText("3 good of 4.").waitFor(slow);
    await page.getByRole("button", { name: "Take back the last" }).click();
    await page.getByText("3 good of 3.").waitFor(slow);

    await page.locator("input[type=file]").setInputFiles("examples/logs/half-the-heat.csv");
    await page.getByRole("img", { name: /^Power at the plug over 111 min, at most \d+ watts/ }).waitFor(slow);
    await page.getByRole("row", { name: /^heat TOO LITTLE 981/ }).waitFor();
    await page.getByRole("button", { name: "Keep this finding" }).click();
    await page.getByRole("button", { name: "Keep this finding" }).waitFor({ ...slow, state: "detached" });
    await page.getByText("Name what is not proved here").click();
    await page.getByLabel("What", { exact: true }).fill("a whole programme");
    await page.getByLabel("Why not").fill("it takes two hours");
    await page.getByRole("button", { name: "Write down", exact: true }).last().click();
    await page.getByText("a whole programme: a picture, within 3 days (it takes two hours)").first().waitFor(slow);

    await page.reload();
    await page.getByText("3 good of 3.").waitFor(slow);
    await page.getByRole("img", { name: /^Power at the plug over 111 min/ }).waitFor(slow);
    await page
      .getByText(/^Run capacitor: worked 3 of 3 times\./)
      .first()
      .waitFor(slow);
    await page
      .getByText(/^Log of the power at the plug \(half-the-heat\.csv\): 1\.\d hours/)
      .first()
      .waitFor();
    await page.getByRole("link", { name: "Close-out" }).click();
    await page.getByText("the proof failed: log of the power at the plug.").waitFor(slow);
    expect(errors).toEqual([]);
  }, 240_000);

  test("a dangerous machine whose repair is declined gets its notice; the refusal to sign is written down, and a signature stands on the paper", async () => {
    const { page, errors } = await tested.app.device();
    await page.getByRole("link", { name: /always damp/ }).click();
    await page.getByRole("link", { name: "What can be done" }).click();
    await page.getByRole("link", { name: "Dangerous, and the repair is declined: notice" }).click(slow);
    const refused = page.getByRole("button", { name: "Refused to sign" });
    await refused.waitFor(slow);
    expect(await refused.isDisabled()).toBe(true);
    await page.getByLabel("What was found, a line each").fill("metal case live\ncord worn through");
    await page.getByRole("button", { name: "plug out, a label on it: do not use" }).click();
    await page.getByLabel("To whom it was read out").fill("the tenant");
    await refused.click();
    await page.getByText("The notice is written down.").waitFor(slow);
    await page.reload();
    await page.getByText("the tenant: refused to sign").waitFor(slow);
    await page.getByText("cord worn through").waitFor();

    const notice = page.url();
    await page.goto(notice.replace("/closing/", "/job/").replace("/notice", "/history"));
    await page
      .getByRole("listitem")
      .filter({ hasText: "cord worn through" })
      .getByRole("button", { name: "Take back" })
      .click(slow);
    await page.goto(notice);
    await page.getByLabel("What was found, a line each").fill("metal case live");
    await page.getByLabel("To whom it was read out").fill("the tenant");
    const pad = page.getByRole("img", { name: /^Sign here/ });
    await pad.scrollIntoViewIfNeeded();
    const box = await pad.boundingBox();
    if (box === null) throw new Error("the pad is not on the page");
    await page.mouse.move(box.x + 40, box.y + 60);
    await page.mouse.down();
    for (let i = 1; i <= 8; i++) await page.mouse.move(box.x + 40 + i * 20, box.y + 60 + 30 * (i % 2));
    await page.mouse.up();
    await page.getByRole("button", { name: "Done: signed" }).click(slow);
    await page.getByRole("img", { name: "Signature of the tenant" }).waitFor(slow);
    await page.goto(notice.replace("/closing/", "/papers/").replace("/notice", "/new/notice"));
    const sheet = page.frameLocator("iframe");
    await sheet.getByText("the tenant, signed on the screen").waitFor(slow);
    const drawn = sheet.getByRole("img", { name: "signature" });
    await drawn.waitFor(slow);
    expect(await drawn.evaluate((image: { naturalWidth?: number }) => image.naturalWidth)).toBe(600);
    expect((await saved(page, "Save as PDF")).subarray(0, 5).toString("latin1")).toBe("%PDF-");
    expect(errors).toEqual([]);
  }, 180_000);
});

describe("in every theme", () => {
  test("nothing between repair and door is against WCAG 2.2 AA, breaks in large text, or is too small for a thumb", async () => {
    const { page } = await tested.app.device();
    await page.getByRole("link", { name: "Settings" }).click();
    await page.getByRole("radio", { name: /code of practice, 4th edition/ }).waitFor(slow);
    const found: Record<string, readonly string[]> = { settings: await amiss(page) };
    const look = async (screen: string) => {
      await settled(page);
      found[screen] = [...(await amiss(page)), ...(await tooSmall(page))];
    };
    await page.getByRole("link", { name: "Jobs" }).click();
    await mended(page);
    await look("setting");
    await begun(page);
    await look("tests");
    await measured(page, "Ω", "0.9", "0.01");
    await page.getByRole("alert").filter({ hasText: "Stop here" }).waitFor(slow);
    await look("failed");
    await page.getByRole("link", { name: "Proof" }).click();
    await page.getByRole("button", { name: "Good", exact: true }).click();
    await page.locator("summary", { hasText: "How long it took" }).click();
    await page.locator("summary", { hasText: "What was measured" }).click();
    await page.locator("summary", { hasText: "Name what is not proved" }).click();
    await page.locator("input[type=file]").setInputFiles("examples/logs/half-the-heat.csv");
    await page.getByRole("img", { name: /^Power at the plug/ }).waitFor(slow);
    await page.getByLabel("Water, litres").waitFor(slow);
    await look("proof");
    await page.getByRole("link", { name: "Close-out" }).click();
    await look("gate");
    await page.getByRole("link", { name: /Dangerous, and the repair/ }).click();
    await look("notice");
    expect(found).toEqual(Object.fromEntries(Object.keys(found).map((screen) => [screen, []])));
  }, 240_000);
});
