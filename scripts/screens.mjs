// Draws every screen of the app for docs/screens: phone and laptop, light and dark. `npm run screens`; with words after
// it, only screens whose name holds one of them; `-- --to FOLDER` puts them elsewhere.
import { spawnSync } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { chromium } from "playwright-core";
import { serve } from "./serve.mjs";
import { tour } from "./tour.mjs";

const sizes = { phone: { width: 390, height: 844 }, laptop: { width: 1280, height: 800 } };
const args = process.argv.slice(2);
const at = args.indexOf("--to");
const folder = at < 0 ? "docs/screens" : args.splice(at, 2)[1];
const wanted = (name) => args.length === 0 || args.some((word) => name.includes(word));

mkdirSync(folder, { recursive: true });
const { server, address } = await serve("dist/app", 4500);
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: ["--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking"],
});
for (const [size, viewport] of Object.entries(sizes)) {
  const context = await browser.newContext({ viewport, colorScheme: "light", reducedMotion: "reduce" });
  const page = await context.newPage();
  page.on("pageerror", (error) => console.error(`  page error: ${error.message}`));
  await page.goto(address);
  for (const [name, go] of tour) {
    if (go.always !== true && !wanted(name)) continue;
    await go(page);
    if (!wanted(name)) continue;
    for (const theme of ["light", "dark"]) {
      await page.emulateMedia({ colorScheme: theme });
      await page.waitForTimeout(150);
      const file = join(folder, `${name}-${size}-${theme}.png`);
      writeFileSync(file, await page.screenshot());
      // Few colours need few bytes; without the program of that name (Debian has it) the files are larger, and no worse.
      spawnSync("pngquant", ["--force", "--ext", ".png", "64", file]);
      console.log(`${name}-${size}-${theme}.png`);
    }
    await page.emulateMedia({ colorScheme: "light" });
  }
  await context.close();
}
await browser.close();
server.closeAllConnections();
server.close();
