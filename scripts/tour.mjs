import { paperSteps } from "./tour-papers.mjs";
import { always, home, slow } from "./tour-steps.mjs";

// The way through the app on which its screens are drawn: a name, and how to get there. Steps marked `always` are gone
// even when their own picture is not wanted, since later ones stand on them.
const open = async (page, complaint) => {
  await home(page);
  await page.getByRole("link", { name: complaint }).click();
  await settled(page);
};
/** Until nothing is being worked out. */
const settled = async (page) => {
  await page.getByRole("heading", { level: 1 }).waitFor(slow);
  await page.locator(".thinking:not(.on)").waitFor({ ...slow, state: "attached" });
};
const tab = async (page, name) => {
  await page.getByRole("link", { name, exact: true }).click();
  await page.waitForTimeout(200);
};
/** A reading of one bench step, written down: the next step then opens by itself. */
const benched = async (page, step, shown) => {
  const card = page.locator(".bench-step", { hasText: step });
  if ((await card.getAttribute("open")) === null) await card.locator("summary").click();
  await card.getByRole("textbox").fill(shown);
  await card.getByRole("button", { name: "Write down" }).first().click();
  await card.locator("summary b", { hasText: shown }).waitFor(slow);
};

/** Until what stands between repair and door is worked out. */
const closing = async (page, room) => {
  await page.getByRole("link", { name: room, exact: true }).click();
  await page.getByRole("heading", { level: 1, name: room }).waitFor(slow);
  await settled(page);
};
/** One safety test's value, its ± after it; without one it lies above the range. */
const tested = async (page, unit, value, spread) => {
  await page.getByLabel(`Shown, ${unit}`).fill(value, slow);
  if (spread === undefined) await page.getByLabel("Above the top of the range").click();
  else await page.getByLabel(`± of it, ${unit}`).fill(spread);
  await page.getByRole("button", { name: "Write down" }).click();
};

export const tour = [
  [
    "empty",
    async (page) => {
      await page.getByRole("button", { name: "Take the demonstration's jobs away" }).click();
      await page.getByText("No job yet.").waitFor();
    },
  ],
  [
    "jobs",
    always(async (page) => {
      await page.goto(`${page.url().split("#")[0]}#/settings`);
      await page.getByRole("button", { name: "Put the demonstration's jobs there again" }).click();
      await page
        .getByRole("link", { name: /turns but stays cold/ })
        .first()
        .waitFor();
    }),
  ],
  [
    "new-job",
    async (page) => {
      await page.getByRole("button", { name: "New job" }).click();
      await page.getByRole("radio", { name: "tumble dryer" }).waitFor(slow);
    },
  ],
  [
    "next-step",
    async (page) => {
      await open(page, /turns but stays cold/);
      await page.getByRole("article").waitFor(slow);
    },
  ],
  [
    "circuit",
    async (page) => {
      await open(page, /turns but stays cold/);
      await page.getByRole("link", { name: "The whole circuit" }).click();
      const row = page.locator(".branch-row", { hasText: "this step" }).first();
      await row.click(slow);
      await page.evaluate(() => window.scrollBy(0, 200));
    },
  ],
  [
    "telephone",
    async (page) => {
      await open(page, /hums and does not turn/);
      await page.getByRole("button", { name: "On the telephone" }).click();
      await page.waitForTimeout(300);
      await settled(page);
    },
  ],
  [
    "faults",
    async (page) => {
      await open(page, /turns but stays cold/);
      await tab(page, "Possible faults");
    },
  ],
  [
    "done",
    async (page) => {
      await open(page, /turns but stays cold/);
      await tab(page, "What can be done");
    },
  ],
  [
    "choices",
    async (page) => {
      await open(page, /turns but stays cold/);
      await tab(page, "What can be done");
      await page.getByRole("link", { name: "Show the customer" }).click();
      await page.getByRole("table").waitFor(slow);
    },
  ],
  [
    "sign",
    async (page) => {
      await open(page, /turns but stays cold/);
      await tab(page, "What can be done");
      await page.getByRole("link", { name: "Show the customer" }).click();
      await page
        .getByRole("link", { name: /^Accept: / })
        .first()
        .click(slow);
      await page.getByRole("img", { name: /^Sign here/ }).waitFor(slow);
    },
  ],
  [
    "history",
    async (page) => {
      await open(page, /turns but stays cold/);
      await tab(page, "Job history");
    },
  ],
  [
    "verify",
    always(async (page) => {
      await open(page, /hums and does not turn/);
      await tab(page, "What can be done");
      const course = page.locator("section", { has: page.getByRole("heading", { name: /run capacitor/ }) }).first();
      await course.getByText("Write down that it was done").click();
      await course.getByRole("button", { name: "Done: it works" }).click();
      await tab(page, "Next step");
      await page.getByRole("heading", { name: /^Mended/ }).waitFor(slow);
      await settled(page);
    }),
  ],
  [
    "tests",
    always(async (page) => {
      await open(page, /hums and does not turn/);
      await page.getByRole("link", { name: "Tested after repair, and close-out" }).click();
      await page.getByRole("radio", { name: /code of practice, 4th edition/ }).click(slow);
      await page.getByLabel("Cord, metres").fill("1.5");
      await page.getByRole("radio", { name: "1.5 mm²" }).click();
      await page.getByLabel("Instrument").fill("safety tester no. 2");
      await page.getByLabel("Last calibrated").fill("2025-11-20");
      await page.getByRole("button", { name: "Begin the tests" }).click();
      const main = page.getByRole("main");
      await main.getByRole("button", { name: "Plug out, I proved it dead" }).first().click(slow);
      await page.getByRole("button", { name: "Pass", exact: true }).click(slow);
      await tested(page, "Ω", "0.08", "0.01");
      await page.getByLabel("Shown, MΩ").waitFor(slow);
      await settled(page);
      await page.locator("#step").evaluate((card) => card.scrollIntoView({ block: "center" }));
    }),
  ],
  [
    "test-failed",
    always(async (page) => {
      await tested(page, "MΩ", "0.05", "0.01");
      await page.getByRole("alert").filter({ hasText: "Stop here" }).waitFor(slow);
      await settled(page);
      await page.locator("#step").evaluate((card) => card.scrollIntoView({ block: "center" }));
    }),
  ],
  [
    "close-out",
    always(async (page) => {
      await closing(page, "Close-out");
      await page.evaluate(() => window.scrollTo(0, 0));
    }),
  ],
  [
    "proof",
    always(async (page) => {
      await closing(page, "Proof");
      for (let n = 1; n <= 3; n++) {
        await page.getByRole("button", { name: "Good", exact: true }).click();
        await page.getByText(`${n} good of ${n}.`).waitFor(slow);
      }
      await settled(page);
      await page.evaluate(() => window.scrollTo(0, 0));
    }),
  ],
  [
    "power-log",
    async (page) => {
      await page.locator("input[type=file]").setInputFiles("examples/logs/half-the-heat.csv");
      await page.getByRole("img", { name: /^Power at the plug/ }).waitFor(slow);
      await page
        .getByRole("heading", { name: "Log of the power at the plug" })
        .evaluate((head) => head.scrollIntoView({ block: "start" }));
      await page.evaluate(() => window.scrollBy(0, -110));
    },
  ],
  [
    "notice",
    async (page) => {
      await closing(page, "Close-out");
      await page.getByRole("link", { name: "Dangerous, and the repair is declined: notice" }).click();
      await page.getByRole("heading", { level: 1, name: "Dangerous: do not use" }).waitFor(slow);
      await page.evaluate(() => window.scrollTo(0, 0));
    },
  ],
  ...paperSteps,
  [
    "sheets",
    async (page) => {
      await home(page);
      await page.getByRole("link", { name: "Wiring sheets" }).click();
      await page.getByRole("link", { name: "tumble dryer" }).waitFor(slow);
    },
  ],
  [
    "sheet",
    async (page) => {
      await page.goto(`${page.url().split("#")[0]}#/sheets/tumble-dryer`);
      await page.getByRole("button", { name: "Show it, place by place" }).click();
      await page.locator("summary", { hasText: "connector X3" }).last().waitFor(slow);
      const group = page.locator("summary", { hasText: /^lid/ }).first();
      await group.click();
      await group.evaluate((summary) => summary.scrollIntoView({ block: "start" }));
    },
  ],
  [
    "branch",
    async (page) => {
      await home(page);
      await page.getByRole("button", { name: "New job" }).click();
      await page.getByRole("radio", { name: "Another machine" }).click();
      for (const kind of ["thermostat", "heater (heater)"]) {
        await page.getByRole("combobox", { name: "Add a part" }).fill(kind);
        await page.getByRole("option", { name: kind, exact: true }).click();
        await page.getByRole("button", { name: "Put it into the branch" }).click();
      }
    },
  ],
  [
    "bench",
    async (page) => {
      await home(page);
      await page.getByRole("link", { name: "Loose part" }).click();
      await page.getByRole("combobox", { name: "What is it?" }).fill("relay");
      await page.getByRole("option", { name: "relay", exact: true }).click();
      await page.getByLabel(/^poles/).fill("2");
      await page.getByRole("button", { name: "Begin" }).click();
      await page.getByText("Test not finished").waitFor(slow);
      await benched(page, "ohms A1 to A2", "402");
      await benched(page, "11 to 14, coil off", "OL");
      await benched(page, "then ohms 21 to 24", "4.2");
      await page.getByRole("button", { name: "It was cleaned: test it again" }).click();
      await page.getByRole("heading", { name: "Before and after" }).waitFor(slow);
      await benched(page, "ohms A1 to A2", "402");
      await page.evaluate(() => window.scrollTo(0, 0));
    },
  ],
  [
    "tag",
    async (page) => {
      await home(page);
      await page.locator("a[href*='/bench/']", { hasText: "relay" }).first().click();
      await page.getByRole("link", { name: "Tag for the shelf" }).click();
      await page.getByRole("img", { name: /Code that opens/ }).waitFor(slow);
    },
  ],
  [
    "practice",
    async (page) => {
      await home(page);
      await page.getByRole("link", { name: "Practice" }).click();
      await page.getByRole("radio", { name: "tumble dryer" }).click();
      await page.getByLabel(/Number of the machine/).fill("7");
      await page.getByRole("button", { name: "Begin" }).click();
      await page.getByRole("article").waitFor(slow);
      await page.getByText("Measure any two points").click();
      for (const [end, point] of [
        ["From", "plug, L"],
        ["To", "plug, N"],
      ]) {
        await page.getByRole("combobox", { name: end, exact: true }).fill(point);
        await page.getByRole("option").first().click();
      }
      const measure = page.locator("details", { hasText: "Measure any two points" });
      await measure.getByRole("button", { name: "Do it: the machine answers" }).click();
      await page.getByRole("alert").waitFor(slow);
      await settled(page);
      await page.evaluate(() => window.scrollTo(0, 0));
    },
  ],
  [
    "practice-end",
    async (page) => {
      await home(page);
      await page
        .getByRole("link", { name: /practice, machine/ })
        .first()
        .click();
      await settled(page);
      await tab(page, "What can be done");
      for (const says of ["Every connector is back on", "It stands unplugged"]) {
        await page.getByRole("button", { name: says }).click();
        await page.locator(".tick:enabled[aria-pressed=true]", { hasText: says }).waitFor(slow);
      }
      await page.getByRole("button", { name: "Stop here, without a repair" }).click();
      await tab(page, "Next step");
      await page.getByText(/^What was wrong: /).waitFor(slow);
    },
  ],
  [
    "settings",
    async (page) => {
      await home(page);
      await page.getByRole("link", { name: "Settings" }).click();
    },
  ],
];
