import type { Page } from "playwright-core";
import { slow } from "./app.ts";

/** The bytes of the file that a key saves: by stream, since the browser that all tests share runs elsewhere and has no path here. */
export async function saved(page: Page, key: string): Promise<Buffer> {
  const coming = page.waitForEvent("download", slow);
  await page.getByRole("button", { name: key }).click();
  const pieces: Buffer[] = [];
  for await (const piece of await (await coming).createReadStream()) pieces.push(piece as Buffer);
  return Buffer.concat(pieces);
}
