import type { Page } from "playwright-core";
import type { LedgerEvent } from "../../src/core/ledger/index.ts";

/** Every event on the device, as its database holds them. */
export async function kept(page: Page): Promise<readonly LedgerEvent[]> {
  return await page.evaluate(`new Promise((resolve, reject) => {
    const opening = indexedDB.open("faultwright");
    opening.onerror = () => reject(opening.error);
    opening.onsuccess = () => {
      const all = opening.result.transaction("events").objectStore("events").getAll();
      all.onerror = () => reject(all.error);
      all.onsuccess = () => { opening.result.close(); resolve(all.result); };
    };
  })`);
}
