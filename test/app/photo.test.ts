import { expect, test } from "vitest";
import { appForAll, slow } from "./app.ts";
import { saved } from "./saved.ts";

const tested = appForAll();

/** Stands in the file where a camera writes the place. */
const PLACE = "GPSLatitude 54 N";

test("a photo is drawn anew without its place, kept with the job, told in its history and in a copy", async () => {
  const { page, errors } = await tested.app.device();
  // A picture larger than is kept, with an application segment (ITU-T T.81, B.2.4.6) of a camera put after its start.
  const drawn: string = await page.evaluate(`(() => {
    const canvas = document.createElement("canvas");
    canvas.width = 2400;
    canvas.height = 1200;
    canvas.getContext("2d").fillRect(0, 0, 1200, 1200);
    return canvas.toDataURL("image/jpeg").split(",")[1];
  })()`);
  const jpeg = Buffer.from(drawn, "base64");
  const said = Buffer.from(`Exif\0\0${PLACE}`);
  const segment = Buffer.concat([Buffer.from([0xff, 0xe1, 0, said.length + 2]), said]);
  const buffer = Buffer.concat([jpeg.subarray(0, 2), segment, jpeg.subarray(2)]);
  expect(buffer.includes(PLACE)).toBe(true);

  await page.getByRole("link", { name: /hums and does not turn/ }).click();
  await page.getByRole("link", { name: "Job history", exact: true }).click();
  const history = page.url();
  await page.getByLabel("Attach a photo").setInputFiles({ name: "a.jpg", mimeType: "image/jpeg", buffer });
  const photo = page.locator(".event img");
  await photo.waitFor(slow);
  await page.reload();
  await photo.waitFor(slow);
  const [width, bytes]: [number, number[]] = await page.evaluate(`(async () => {
    const image = document.querySelector(".event img");
    await image.decode();
    const db = await new Promise((resolve) => { const o = indexedDB.open("faultwright"); o.onsuccess = () => resolve(o.result); });
    const all = db.transaction("photos").objectStore("photos").getAll();
    await new Promise((resolve) => { all.onsuccess = resolve; });
    db.close();
    const bytes = new Uint8Array(await all.result[0].blob.arrayBuffer());
    return [image.naturalWidth, [...bytes]];
  })()`);
  expect(width).toBe(1600);
  expect(Buffer.from(bytes).includes(PLACE)).toBe(false);

  await page.getByRole("link", { name: /Jobs/ }).click();
  await page.getByRole("link", { name: "Settings" }).click();
  const copy = await saved(page, "Copy everything to a file");
  expect(copy.toString()).toMatch(/\n\{"photo":"[0-9a-f]{64}","type":"image\/jpeg","base64":"/);

  const other = await tested.app.device();
  await other.page.getByRole("link", { name: "Settings" }).click();
  const chooser = other.page.waitForEvent("filechooser");
  await other.page.getByRole("button", { name: "Take in a copy" }).click();
  await (await chooser).setFiles({ name: "copy.jsonl", mimeType: "application/jsonl", buffer: copy });
  await other.page.getByText(/events read/).waitFor(slow);
  await other.page.goto(history);
  await other.page.locator(".event img").waitFor(slow);
  expect([...errors, ...other.errors]).toEqual([]);
}, 240_000);
