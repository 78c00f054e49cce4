// The way through papers and money, from what is told before the work to the stock.
import { always, home, slow } from "./tour-steps.mjs";

/** The papers of a job whose customer has agreed to a course; the invoice handed over where it was not yet. */
const papers = async (page, below) => {
  await home(page);
  const link = page.getByRole("link", { name: /always damp/ }).first();
  const job = (await link.getAttribute("href")).split("/")[2];
  await page.goto(`${page.url().split("#")[0]}#/papers/${job}${below === undefined ? "" : `/${below}`}`);
  await page.getByRole("heading", { level: 1 }).waitFor(slow);
  if (below !== undefined) return;
  await page.locator(".papers-working", { hasText: /^$/ }).waitFor({ ...slow, state: "attached" });
};
export const paperSteps = [
  [
    "people",
    always(async (page) => {
      await papers(page, "people");
      const customer = page.getByRole("form", { name: "Customer", exact: true });
      await customer.getByLabel("Name").fill("A. Sample");
      await customer.getByLabel("Street and number").fill("7 Mill Row");
      await customer.getByLabel("Postal code").fill("00017");
      await customer.getByLabel("Town").fill("Ostermoor");
      await customer.getByLabel("Country").fill("DE");
      await customer.getByLabel("Telephone").fill("000 5550187");
      await customer.getByRole("button", { name: "Write it down" }).click();
      await customer.getByText("Written down.").waitFor(slow);
      await page.getByLabel("Amount").fill("200");
      await page.getByRole("button", { name: "Write down the limit" }).click();
      await page.getByRole("button", { name: "They were told" }).click(slow);
      await page.getByText("Written down.").nth(2).waitFor(slow);
      await page.evaluate(() => window.scrollTo(0, 0));
    }),
  ],
  ["papers", (page) => papers(page)],
  [
    "paper",
    async (page) => {
      await papers(page, "new/invoice");
      await page.getByRole("button", { name: "Hand it over" }).waitFor(slow);
    },
  ],
  [
    "paper-kept",
    always(async (page) => {
      await papers(page, "new/invoice");
      await page.getByRole("button", { name: "Hand it over" }).click(slow);
      await page.getByText(/^Handed over on/).waitFor(slow);
      await page.getByText(/^Seal/).waitFor(slow);
    }),
  ],
  [
    "pay",
    async (page) => {
      await papers(page, "pay");
      await page.getByRole("img", { name: /^Bank code/ }).waitFor(slow);
    },
  ],
  [
    "papers-given",
    async (page) => {
      await papers(page, "pay");
      await page.getByLabel(/^Amount/).fill("20");
      await page.getByRole("button", { name: "Write down the payment" }).click();
      await page.getByText(/to be paid$/).waitFor(slow);
      await papers(page);
    },
  ],
  [
    "shelf",
    async (page) => {
      await home(page);
      await page.getByRole("link", { name: "Parts and shelf" }).click();
      for (const [kind, says, count, least] of [
        ["relay", "board relay 12 V", "4", "3"],
        ["run capacitor", "run capacitor 8 µF", "1", "2"],
      ]) {
        await page.getByRole("combobox", { name: "Which part" }).fill(kind);
        await page.getByRole("option", { name: kind, exact: true }).click();
        await page.getByLabel("What is written on it").fill(says);
        await page.getByLabel("How many", { exact: true }).fill(count);
        await page.getByLabel(/^How many should lie here/).fill(least);
        await page.getByRole("button", { name: "Put them there" }).click(slow);
        await page.getByRole("button", { name: `One more: ${says}` }).waitFor(slow);
      }
      await page.evaluate(() => window.scrollTo(0, 0));
    },
  ],
];
