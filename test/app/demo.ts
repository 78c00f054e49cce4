import type { Page } from "playwright-core";
import { beforeAll, describe, expect, test } from "vitest";
import { DemoMachine, demoJob, demoJobs } from "../machines/demo-machine.ts";
import { appForAll, slow } from "./app.ts";
import { kept } from "./kept.ts";
import { Person } from "./person.ts";
import { keepLastViews } from "./shown-view.ts";

/** Events that no line of a job history is for: they stand in the line of what they take back. */
const UNTOLD: ReadonlySet<string> = new Set(["withdraws", "practised"]);

/** Screens that are touched; the laptop is one with a touch screen, so that one person works both. */
const SCREENS = { phone: { width: 390, height: 844 }, laptop: { width: 1280, height: 800 } };

/**
 * Every job of the demonstration at a machine of these families, worked to its remedy on one device.
 *
 * @param signal  "none": the app was loaded once, then nobody answers any more, and the page is opened anew
 */
export function demoJobsWorked(
  screen: keyof typeof SCREENS,
  families: readonly string[],
  signal: "there" | "none",
): void {
  const tested = appForAll();
  const jobs = demoJobs.filter((name) => {
    const { sheet } = demoJob(name);
    return sheet.kind === "family" && families.includes(sheet.name);
  });
  describe(`on a ${screen}, the signal ${signal}`, () => {
    let page: Page;
    let errors: readonly string[];
    beforeAll(async () => {
      const device = await tested.app.device({ ...SCREENS[screen], isPhone: true, script: keepLastViews });
      ({ page, errors } = device);
      await page.getByRole("link", { name: demoJob(demoJobs[0] ?? "").complaint }).waitFor(slow);
      if (signal === "there") return;
      await page.evaluate("navigator.serviceWorker.ready.then(() => undefined)");
      await tested.app.stopServing();
      await device.context.setOffline(true);
      await page.reload();
    }, 120_000);

    test.each(jobs)(
      "%s comes to its remedy",
      async (name) => {
        await workDemoJob(page, tested.app.address, name);
        expect(errors).toEqual([]);
      },
      240_000,
    );
  });
}

/**
 * Works a job of the demonstration from the list of jobs to its end, at a machine that hides the fault of its story, and sees
 * that its remedy mends that fault, that the job is ended as mended, and that the device holds and tells every event.
 */
async function workDemoJob(page: Page, address: string, name: string): Promise<void> {
  const machine = new DemoMachine(name);
  expect(machine.hidden.faults.length).toBeGreaterThan(0);
  await page.goto(`${address}#/`);
  await page.getByRole("link", { name: machine.complaint }).tap(slow);
  await page.locator("#step").waitFor(slow);
  const job = /#\/job\/([^/]+)/.exec(page.url())?.[1] ?? "";
  const begun = (await kept(page)).filter((event) => event.job === job).map(({ kind }) => kind);

  const person = new Person(page, machine);
  await person.work();
  expect(machine.hidden.faults.map(({ id }) => id)).toEqual([]);

  const events = (await kept(page)).filter((event) => event.job === job);
  expect(events.map(({ kind }) => kind).sort()).toEqual([...begun, ...person.keys.wrote].sort());
  await page.getByRole("link", { name: "Job history", exact: true }).tap();
  await page.locator(".event").first().waitFor(slow);
  const told = events.filter(({ kind }) => !UNTOLD.has(kind));
  await expect.poll(() => page.locator(".event").count()).toBe(told.length);
  await page.goto(`${address}#/`);
  const closed = page.locator("section", { has: page.getByRole("heading", { name: "Closed" }) });
  await closed.getByRole("link", { name: machine.complaint }).waitFor(slow);
}
