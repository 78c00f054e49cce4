import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, inject, test } from "vitest";
import { readView } from "../../src/shell/web/engine/view-file.ts";
import { exampleFile } from "../../src/shell/web/jobs/example-job.ts";
import { appForAll, slow } from "./app.ts";

const tested = appForAll();

describe("a job on the phone", () => {
  test("is begun with a machine and a complaint, asked about, answered, and taken back", async () => {
    const { page, errors } = await tested.app.device();
    await page.getByRole("button", { name: "New job" }).click();
    await page.getByRole("button", { name: "Begin" }).click();
    await page.getByText("Choose a machine first.").waitFor();
    await page.getByRole("radio", { name: "tumble dryer" }).click();
    await page.getByLabel("What does the customer say").fill("turns but stays cold");
    await page.getByLabel("Age in years").fill("seven");
    await page.getByRole("button", { name: "Begin" }).click();
    await page.getByText("A number, or leave it blank.").waitFor();
    await page.getByLabel("Age in years").fill("7");
    await page.getByRole("button", { name: "Begin" }).click();

    const card = page.getByRole("article");
    await card.waitFor(slow);
    await page.getByRole("heading", { name: "Ask the customer" }).waitFor(slow);
    const asked = await card.locator(".question h3").allTextContents();
    expect(asked.length).toBeGreaterThan(2);
    const question = asked[0];
    const key = card.locator(".keys button").first();
    await key.click();
    // The step stays as it is, and nothing is worked out, until all of it is answered or it is enough.
    await card.getByText(`1 of ${asked.length} answered.`).waitFor();
    expect(await key.getAttribute("aria-pressed")).toBe("true");
    expect(await page.locator(".thinking").textContent()).toBe("");
    expect(await card.locator(".question h3").allTextContents()).toEqual(asked);
    await card.getByRole("button", { name: "Enough: what comes next?" }).click();
    // What is on its way to be replaced takes no press.
    await page.getByText("Working out what comes next").waitFor();
    expect(await card.locator("button:enabled").count()).toBe(0);
    await page.locator(".thinking", { hasText: /^$/ }).waitFor({ ...slow, state: "attached" });
    expect(await card.locator("button:enabled").count()).toBeGreaterThan(0);

    await page.getByRole("button", { name: "On the telephone" }).click();
    await page.getByText("One visit ends it: ").waitFor(slow);
    await page.getByText(/Call-out, mending and part: \d+ to \d+ EUR/).waitFor();
    await page.getByRole("link", { name: "Job history" }).click();
    const line = page.locator(".event", { hasText: question ?? "?" });
    await line.waitFor(slow);
    await line.getByRole("button", { name: "Take back" }).click();
    await page.getByText("taken back").waitFor();
    expect(errors).toEqual([]);
  }, 180_000);

  test("shows PLUG OUT only after it was proved dead, and LIVE again when plugged in", async () => {
    const { page, errors } = await tested.app.device();
    await page.getByRole("link", { name: /hums and does not turn/ }).click();
    const state = page.locator(".state strong");
    await state.waitFor(slow);
    expect(await state.textContent()).toBe("LIVE");
    await page.getByRole("button", { name: /proved it dead/ }).click();
    await page.getByText("proved dead", { exact: true }).waitFor(slow);
    expect(await state.textContent()).toBe("PLUG OUT");
    await page.getByRole("button", { name: /Plug in, RCD lead/ }).click();
    await page.locator(".state.live").waitFor(slow);
    expect(errors).toEqual([]);
  }, 180_000);

  test("takes readings typed in one go, deals them out, and shows what they did", async () => {
    const { page, errors } = await tested.app.device();
    await page.getByRole("link", { name: /turns but stays cold/ }).click();
    const first = page.getByRole("textbox").first();
    await first.waitFor(slow);
    const readings = await page.locator(".reading-input").count();
    expect(readings).toBeGreaterThan(0);
    await first.fill(Array.from({ length: readings }, () => "OL").join(" "));
    for (let i = 0; i < readings; i++) expect(await page.locator(".reading-input").nth(i).inputValue()).toBe("OL");
    await page.getByRole("button", { name: "Write down", exact: true }).click();
    await page.getByRole("link", { name: "Job history" }).click();
    await page.locator(".event", { hasText: "OL" }).first().waitFor(slow);
    await page.getByRole("link", { name: "Possible faults" }).click();
    await page.getByText("heater", { exact: false }).first().waitFor(slow);
    expect(errors).toEqual([]);
  }, 180_000);

  test("opened again, a job shows the view that was kept of it, and no longer once anything was written", async () => {
    const { page, errors } = await tested.app.device();
    await page.getByRole("link", { name: /hums and does not turn/ }).click();
    const step = page.locator("#step");
    await step.waitFor(slow);
    // What ships with the app is not kept once more.
    await page.getByRole("button", { name: /proved it dead/ }).click();
    await page.getByText("proved dead", { exact: true }).waitFor(slow);
    await expect.poll(() => page.evaluate(MARK)).toBe(1);
    await page.reload();
    await page.getByText("as it was kept").first().waitFor(slow);
    await page.getByRole("button", { name: /Plug in, RCD lead/ }).click();
    await page.locator(".state.live").waitFor(slow);
    expect(await page.getByText("as it was kept").count()).toBe(0);
    expect(errors).toEqual([]);
  }, 180_000);

  test("the view that ships of a demonstration job is what the engine in the browser works out", async () => {
    const { page } = await tested.app.device();
    const { folder } = inject("app");
    const script = readdirSync(join(folder, "assets")).find((file) => file.startsWith("worker-"));
    const name = "cold-victim-of-lint";
    const facts = JSON.parse(readFileSync(join(folder, "facts.json"), "utf8"));
    const text = exampleFile(facts.examples[name]);
    const ask = (job: string) =>
      page.evaluate(`(${askWorker})("${tested.app.address}", "assets/${script}", ${JSON.stringify(job)})`);
    const shipped = await ask(text);
    expect(shipped).toBe(asText(readView(readFileSync(join(folder, "ahead", `${name}.json`), "utf8"))));
    // A blank more is another text: none was worked out ahead.
    expect(await ask(`${text} `)).toBe(shipped);
  }, 180_000);

  test("a reading that is none is not written down", async () => {
    const { page } = await tested.app.device();
    await page.getByRole("link", { name: /turns but stays cold/ }).click();
    const first = page.locator(".reading-input").first();
    await first.waitFor(slow);
    await first.fill("forty");
    await page.getByText('"forty" is not a reading').waitFor();
    const send = page.locator(".keypad .send");
    expect(await send.isDisabled()).toBe(true);
    await first.press("Enter");
    expect(await first.inputValue()).toBe("forty");
    await first.fill("40");
    await page.locator(".keypad .send:enabled").waitFor();
  }, 180_000);
});

/** Every key in order, maps and sets by what is in them, numbers to 12 digits: what was built and the browser differ in the last of 16. */
const asText = (view: unknown): string =>
  JSON.stringify(view, (_, value: unknown) => {
    if (value instanceof Map) return ["map", ...value];
    if (value instanceof Set) return ["set", ...value];
    return typeof value === "number" ? value.toPrecision(12) : value;
  });

/** Asks a worker of the engine that nobody has asked anything yet; gives the view as text. */
const askWorker = `(address, script, text) => new Promise((resolve, reject) => {
  const asText = ${asText};
  const worker = new Worker(new URL(script, address), { type: "module" });
  worker.onerror = (event) => reject(new Error(event.message));
  worker.onmessage = ({ data }) => resolve(data.ok ? asText(data.answer.view) : data.error);
  worker.postMessage({ id: 1, ask: { do: "work out", text, where: "machine" }, facts: new URL("facts.json", address).href });
})`;

/** Changes the words of every step in every view that this device keeps; gives how many views there are. */
const MARK = `(async () => {
  const done = (request) => new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
  const database = await done(indexedDB.open("faultwright-views"));
  const store = database.transaction("views", "readwrite").objectStore("views");
  const keys = await done(store.getAllKeys());
  for (const key of keys) {
    const kept = await done(store.get(key));
    for (const step of kept.view.plan.steps) step.says = "as it was kept";
    await done(store.put(kept, key));
  }
  database.close();
  return keys.length;
})()`;
