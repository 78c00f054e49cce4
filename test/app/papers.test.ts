import { createHash } from "node:crypto";
import { inflateSync } from "node:zlib";
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { keptPaper } from "../../src/core/paper/index.ts";
import { paperAsPdf } from "../../src/shell/paper/pdf-paper.ts";
import { must } from "../machines/branch-job.ts";
import { sha256 } from "../paper/samples.ts";
import { amiss } from "./amiss.ts";
import { appForAll, slow } from "./app.ts";
import { saved } from "./saved.ts";

const tested = appForAll();

/** Address of the papers of a job of the demonstration. */
async function papersOf(page: Page, complaint: RegExp): Promise<string> {
  const link = page.getByRole("link", { name: complaint });
  const href = (await link.getAttribute("href")) ?? "";
  return `${tested.app.address}#/papers/${href.split("/")[2]}`;
}

/** Every paper that the device holds as handed over. */
async function issued(
  page: Page,
): Promise<readonly { paper: string; number: string; content: string; hash: string }[]> {
  return await page.evaluate(`(async () => {
    const db = await new Promise((resolve) => { const o = indexedDB.open("faultwright"); o.onsuccess = () => resolve(o.result); });
    const all = db.transaction("events").objectStore("events").index("kind").getAll("issued");
    const found = await new Promise((resolve) => { all.onsuccess = () => resolve(all.result); });
    db.close();
    return found.map(({ body }) => body);
  })()`);
}

async function customerWritten(page: Page, name: string): Promise<void> {
  const form = page.getByRole("form", { name: "Customer", exact: true });
  await form.getByLabel("Name").fill(name);
  await form.getByLabel("Street and number").fill("7 Mill Row");
  await form.getByLabel("Town").fill("Ostermoor");
  await form.getByLabel("Country").fill("de");
  await form.getByRole("button", { name: "Write it down" }).click();
  await form.getByText("Written down.").waitFor(slow);
}

/** What a PDF draws and the fonts it draws with, unpacked: two packers make other bytes of the same. */
function streamsOf(pdf: Buffer): readonly string[] {
  const text = pdf.toString("latin1");
  const streams = [...text.matchAll(/stream\r?\n([\s\S]*?)\r?\nendstream/g)].map(([, packed = ""]) =>
    createHash("sha256")
      .update(inflateSync(Buffer.from(packed, "latin1")))
      .digest("hex"),
  );
  expect(streams.length).toBeGreaterThan(3);
  return streams;
}

describe("papers and money", () => {
  test("a job goes from an accepted choice to a paid invoice on the phone, from the hand-over on without a signal", async () => {
    const { page, context, errors } = await tested.app.device();
    await page.evaluate("navigator.serviceWorker.ready.then(() => undefined)");
    const papers = await papersOf(page, /hums and does not turn/);
    await page.goto(papers.replace("papers", "choices"));
    await page
      .getByRole("link", { name: /^Accept: / })
      .first()
      .click(slow);
    await page.getByRole("button", { name: "Agreed without a signature" }).click(slow);
    await page.getByRole("heading", { name: "Agreed", exact: true }).waitFor(slow);

    await page.goto(papers);
    await page.getByText("Nobody is named who gets it.").first().waitFor(slow);
    await page.getByRole("link", { name: "Customer, limit, fees and visit" }).click();
    await customerWritten(page, "A. Sample");
    await page.getByLabel("Amount").fill("250");
    await page.getByRole("button", { name: "Write down the limit" }).click();
    await page.getByText(/coming costs 45\.00 EUR; finding the fault costs 39\.00 EUR/).waitFor(slow);
    await page.getByRole("button", { name: "They were told" }).click();
    await page.getByText("Written down.").nth(2).waitFor(slow);
    await page.getByLabel("Day").fill("2026-03-04");
    await page.getByLabel("Time").fill("10:30");
    await page.getByRole("button", { name: "Agree this visit" }).click();
    const ics = (await saved(page, "Save for the calendar (.ics)")).toString();
    expect(ics).toContain("BEGIN:VEVENT");
    expect(ics).toContain("A. Sample");
    expect((await saved(page, "Save the customer as a contact (.vcf)")).toString()).toContain("FN:A. Sample");

    await page.getByRole("link", { name: "Back to the papers" }).click();
    await page.getByText(/^250\.00 EUR · A\. Sample, on the telephone/).waitFor(slow);
    await page.getByRole("link", { name: /^Invoice/ }).click(slow);
    const sheet = page.frameLocator("iframe");
    await sheet.getByText("No. DEMO-0001").waitFor(slow);
    await context.setOffline(true);
    await page.getByRole("button", { name: "Hand it over" }).click(slow);
    await page.getByText(/^Handed over on /).waitFor(slow);
    await sheet.getByText(/^Please pay /).waitFor(slow);

    const [kept] = await issued(page);
    if (kept === undefined) throw new Error("nothing was kept");
    expect(sha256(kept.content)).toBe(kept.hash);
    const paper = must(keptPaper({ ...kept, date: "2026-03-04" }, sha256));
    const pdf = await saved(page, "Save as PDF");
    expect(pdf.subarray(0, 5).toString("latin1")).toBe("%PDF-");
    // The same paper by the same definition outside the browser.
    const ours = Buffer.from(await paperAsPdf(paper, { size: "A4" }));
    expect(streamsOf(pdf)).toEqual(streamsOf(ours));
    const ubl = (await saved(page, "Save as electronic invoice (UBL)")).toString();
    expect(ubl).toContain("<cbc:ID>DEMO-0001</cbc:ID>");
    expect((await saved(page, "Save for e-mail (HTML)")).toString()).toContain("DEMO-0001");

    // What was handed over stays, whatever is written since.
    await page.getByRole("link", { name: "Take a payment" }).click();
    const code = page.getByRole("img", { name: /^Bank code/ });
    await code.waitFor(slow);
    expect((await code.boundingBox())?.width ?? 0).toBeGreaterThan(300);
    const open = Number(await page.getByLabel(/^Amount/).inputValue());
    await page.getByLabel(/^Amount/).fill("20,50");
    await page.getByRole("radio", { name: "card" }).click();
    await page.getByRole("button", { name: "Write down the payment" }).click();
    await page.getByText(`${(open - 20.5).toFixed(2)} EUR to be paid`).waitFor(slow);
    await page.getByRole("link", { name: "Take a payment" }).click();
    await page.getByRole("button", { name: "Write down the payment" }).click(slow);
    await page.getByText("Everything is paid").waitFor(slow);
    await page.getByRole("link", { name: /^Invoice DEMO-0001/ }).click();
    await sheet.getByText(/^Please pay /).waitFor(slow);
    expect(await issued(page)).toEqual([kept]);

    await page.goto(papers.replace("papers", "job").concat("/history"));
    const line = page.getByRole("listitem").filter({ hasText: /invoice DEMO-0001/ });
    await line.waitFor(slow);
    expect(await line.getByRole("button").count()).toBe(0);
    expect(errors).toEqual([]);
  }, 400_000);

  test("an invoice handed over by two taps and two tabs at once is one; another job's has the next number; a credit note takes a part back", async () => {
    const { page, context, errors } = await tested.app.device({ width: 1280, height: 800 });
    const [first, second] = [await papersOf(page, /always damp/), await papersOf(page, /hums and does not turn/)];
    await page.goto(`${first}/people`);
    await customerWritten(page, "B. Sample");
    await page.goto(`${second}/people`);
    await customerWritten(page, "C. Sample");
    const other = await context.newPage();
    const third = await context.newPage();
    await other.goto(`${first}/new/invoice`);
    await third.goto(`${second}/new/invoice`);
    await page.goto(`${first}/new/invoice`);
    const over = (of: Page) => of.getByRole("button", { name: "Hand it over" });
    for (const one of [page, other, third]) await over(one).waitFor(slow);
    // All of them bear the number that is next now; two taps, two tabs on one job, and another job at once.
    const tap =
      "document.querySelectorAll('button.big-key:not(.quiet)').forEach((key) => { key.click(); key.click(); })";
    await Promise.all([page, other, third].map((one) => one.evaluate(tap)));
    for (const one of [page, other, third])
      await one
        .getByText(/^Handed over on |^Its number was given|^The job has changed/)
        .first()
        .waitFor(slow);
    const once = await issued(page);
    const numbers = once.map(({ number }) => number).sort();
    expect(new Set(numbers).size).toBe(numbers.length);
    expect(numbers.length).toBeLessThanOrEqual(2);
    // Whoever was told so looks again and hands over; on a job that has one there is nothing to hand over.
    if (numbers.length === 1) {
      const late = (await third.getByText(/^Handed over on /).count()) === 0 ? third : page;
      await late.locator("button.big-key:not(.quiet):enabled").click(slow);
      await late.getByText(/^Handed over on /).waitFor(slow);
    }
    const all = await issued(page);
    expect(all.map(({ number }) => number).sort()).toEqual(["DEMO-0001", "DEMO-0002"]);

    await page.goto(first);
    await page.getByText("An invoice was handed over and stands.").waitFor(slow);
    await page.goto(`${first}/new/credit-note`);
    await page.getByRole("button", { name: "Make the credit note" }).click(slow);
    await page.getByText("A credit note says why.").waitFor();
    await page.getByLabel("Why it is taken back").fill("the part was not fitted");
    await page.getByLabel(/^Amount, tax included/).fill("30");
    await page.keyboard.press("Enter");
    await page
      .frameLocator("iframe")
      .getByText(/^We take back 30\.00 EUR of invoice/)
      .waitFor(slow);
    await over(page).click();
    await page.getByText(/^Handed over on /).waitFor(slow);
    expect((await issued(page)).at(-1)).toMatchObject({ paper: "credit note", number: "DEMO-C0001", total: -30 });
    expect(errors).toEqual([]);
  }, 400_000);

  test("a shop of one's own is on a new job's papers with its own series, and nothing invented is", async () => {
    const { page, errors } = await tested.app.device();
    await page.goto(`${tested.app.address}#/new`);
    await page.getByRole("radio", { name: "tumble dryer" }).click(slow);
    await page.getByLabel(/^What does the customer say/).fill("dead");
    await page.getByLabel("Telephone").fill("000 5550177");
    await page.getByRole("button", { name: "Begin" }).click();
    await page.getByText("Whose number is it?").waitFor();
    await page.getByLabel(/^Customer/).fill("D. Sample");
    await page.getByRole("button", { name: "Begin" }).click();
    await page.waitForURL(/#\/job\//);
    const papers = page.url().replace("/job/", "/papers/").replace("/next", "");
    await page.goto(papers);
    await page.getByText("The shop's name and address are not in the settings yet.").first().waitFor(slow);
    await page.getByText("D. Sample, 000 5550177").waitFor(slow);
    await page.getByRole("link", { name: "Settings" }).first().click();
    const form = page.getByRole("form", { name: "The shop, on its papers" });
    expect((await form.boundingBox())?.y ?? 9999).toBeLessThan(844);
    await form.getByRole("button", { name: "Keep this" }).click();
    expect(await form.getByText("A number is missing.").count()).toBe(3);
    await form.getByLabel("Name of the shop").fill("Quay repairs");
    await form.getByLabel("Account (IBAN)").fill("DE00 1234");
    await form.getByLabel("An hour of work").fill("60");
    await form.getByLabel("Call-out").fill("30");
    await form.getByLabel(/^Finding the fault/).fill("25,50");
    await form.getByLabel(/^Guarantee where a new part/).fill("24");
    await form.getByLabel(/^Deposit/).fill("30");
    const bands = form.getByLabel(/^Work at fixed prices/);
    await bands.fill("half an hour 45");
    await form.getByLabel("Invoice numbers of this device begin with").fill("Q-");
    await form.getByLabel("The first number").fill("118");
    await form.getByRole("button", { name: "Keep this" }).click();
    await form.getByText(/check digits/).waitFor();
    await form.getByText("Not minutes and a price: half an hour 45").waitFor();
    await bands.fill("30 45\n60 80,50");
    await form.getByLabel("Account (IBAN)").fill("");
    await form.getByRole("button", { name: "Keep this" }).click();
    await form.getByText("Kept.").waitFor();
    await form.getByText("The next invoice is Q-0118.").waitFor();

    await page.goto(`${papers}/new/invoice`);
    const sheet = page.frameLocator("iframe");
    await sheet.getByText("No. Q-0118").waitFor(slow);
    await sheet.getByText("Please pay 55.50 EUR").waitFor();
    await page.getByText("Change the lines").click();
    await page.getByLabel("Line 2: amount").fill("20");
    await page.getByRole("button", { name: "One more line" }).click();
    await page.getByLabel("Line 3: what for").fill("a neighbour");
    await page.getByLabel("Line 3: amount").fill("-5,50");
    await page.getByRole("button", { name: "Make the paper of these lines" }).click();
    await sheet.getByText("Please pay 44.50 EUR").waitFor(slow);
    await page.getByRole("button", { name: "Back to the lines as they were worked out" }).click(slow);
    await sheet.getByText("Please pay 55.50 EUR").waitFor(slow);
    await sheet.getByText("Quay repairs").first().waitFor();
    expect(await sheet.getByText(/Ferrybank/).count()).toBe(0);
    expect(await sheet.getByText("30.00 EUR").count()).toBeGreaterThan(0);
    expect(errors).toEqual([]);
  }, 300_000);

  test("the part of an accepted choice is to be ordered, then has arrived; new parts are counted, taken back, and in every copy", async () => {
    const { page, context, errors } = await tested.app.device();
    const papers = await papersOf(page, /hums and does not turn/);
    await page.goto(papers.replace("papers", "choices"));
    await page
      .getByRole("link", { name: /^Accept: .*run capacitor/ })
      .first()
      .click(slow);
    await page.getByRole("button", { name: "Agreed without a signature" }).click(slow);
    await page.getByRole("heading", { name: "Agreed", exact: true }).waitFor(slow);
    await page.goto(`${tested.app.address}#/`);
    await page.getByRole("link", { name: "Parts and shelf" }).click();
    await page.getByText("1 × capacitor").waitFor(slow);
    await page.getByRole("button", { name: "Ordered: capacitor" }).click(slow);
    await page.getByRole("button", { name: "It has arrived: capacitor" }).click(slow);
    await page.getByText("Nothing is to be ordered.").waitFor(slow);

    await page.getByRole("combobox", { name: "Which part" }).fill("relay");
    await page.getByRole("option", { name: "relay", exact: true }).click();
    await page.getByLabel("What is written on it").fill("board relay 12 V");
    await page.getByLabel("How many", { exact: true }).fill("2");
    await page.getByLabel(/^How many should lie here/).fill("3");
    await page.getByRole("button", { name: "Put them there" }).click();
    await page.getByText(/board relay 12 V, for the van/).waitFor(slow);
    const more = page.getByRole("button", { name: "One more: board relay 12 V" });
    expect((await more.boundingBox())?.height ?? 0).toBeGreaterThanOrEqual(44);
    await more.focus();
    await page.keyboard.press("Enter");
    await page.getByText("Nothing is to be ordered.").waitFor(slow);
    await page.reload();
    await page.getByText("relay · at least 3").waitFor(slow);
    const lying = page.locator(".stock-line .number");
    expect(await lying.textContent()).toBe("3");
    await page.getByText("What was put there and taken").click();
    await page.getByRole("button", { name: "Take back: 1 × board relay 12 V put in the van", exact: true }).click();
    await lying.filter({ hasText: /^2$/ }).waitFor(slow);
    await page.getByText(/ · taken back$/).waitFor(slow);

    // What a second tab writes is seen here, and all of it is in the copy of everything.
    const other = await context.newPage();
    await other.goto(`${tested.app.address}#/shelf`);
    await other.getByRole("button", { name: "One more: board relay 12 V" }).click(slow);
    await lying.filter({ hasText: /^3$/ }).waitFor(slow);
    await other.goto(`${tested.app.address}#/settings`);
    const copy = (await saved(other, "Copy everything to a file")).toString().split("\n");
    expect(copy.filter((line) => line.includes('"kind":"stocked"'))).toHaveLength(3);
    await other.close();
    expect(await amiss(page)).toEqual([]);
    expect(errors).toEqual([]);
  }, 300_000);

  test("nothing on these pages is against WCAG 2.2 AA in any theme", async () => {
    const { page } = await tested.app.device();
    await page.goto(`${tested.app.address}#/settings`);
    await page.getByRole("radio", { name: "light", exact: true }).waitFor(slow);
    const found: Record<string, readonly string[]> = { settings: await amiss(page) };
    await page.goto(`${tested.app.address}#/`);
    await page.getByRole("link", { name: /always damp/ }).waitFor(slow);
    const papers = await papersOf(page, /always damp/);
    await page.goto(`${papers}/people`);
    await customerWritten(page, "E. Sample");
    found.people = await amiss(page);
    await page.goto(papers);
    await page.getByRole("link", { name: /^Invoice/ }).waitFor(slow);
    found.list = await amiss(page);
    const small: number = await page.evaluate(`Math.min(...[...document.querySelectorAll("main a, main button")]
      .map((one) => one.getBoundingClientRect()).filter(({ height }) => height > 0).map(({ height }) => height))`);
    expect(small).toBeGreaterThanOrEqual(44);
    await page.getByRole("link", { name: /^Invoice/ }).click();
    const over = page.getByRole("button", { name: "Hand it over" });
    await over.waitFor(slow);
    found.invoice = await amiss(page);
    await over.focus();
    await page.keyboard.press("Enter");
    await page.getByText(/^Handed over on /).waitFor(slow);
    await page.getByRole("button", { name: "Save as PDF" }).waitFor(slow);
    found.kept = await amiss(page);
    await page.getByRole("link", { name: "Take a payment" }).click();
    await page.getByRole("img", { name: /^Bank code/ }).waitFor(slow);
    found.pay = await amiss(page);
    expect(found).toEqual(Object.fromEntries(Object.keys(found).map((screen) => [screen, []])));
  }, 300_000);
});
