import type { Page } from "playwright-core";
import type { ClosingView } from "../../src/shell/web/engine/closing-view.ts";
import type { JobView } from "../../src/shell/web/engine/protocol.ts";

/** Keeps, in the page, what the engine worked out last: to be run before any script of the page. */
export const keepLastViews = `{
  const Plain = window.Worker;
  window.Worker = class extends Plain {
    constructor(...how) {
      super(...how);
      this.addEventListener("message", ({ data }) => {
        const view = data.ok && data.answer && data.answer.ok ? data.answer.view : undefined;
        if (view && view.plan && view.desk) window.lastJob = view;
        if (view && view.gate && view.tests) window.lastClosing = view;
      });
    }
  };
}`;

/**
 * What the engine worked out for the job screen that is shown: it tells what a question in words is about, so that a machine
 * can be asked the same.
 */
export async function shownJob(page: Page): Promise<JobView> {
  return await lastOf(page, "lastJob");
}

/** The same of the rooms between repair and door. */
export async function shownClosing(page: Page): Promise<ClosingView> {
  return await lastOf(page, "lastClosing");
}

async function lastOf(page: Page, name: string) {
  const text: string = await page.evaluate(
    `JSON.stringify(window.${name}, (_, held) => held instanceof Map ? { map: [...held] } : held instanceof Set ? { set: [...held] } : held)`,
  );
  return JSON.parse(text, (_, held) => {
    if (typeof held !== "object" || held === null) return held;
    if (Array.isArray(held.map)) return new Map(held.map);
    return Array.isArray(held.set) ? new Set(held.set) : held;
  });
}
