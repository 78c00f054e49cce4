// npm run bench — every bench one after another, each in a process of its own, then one table of what was asked and what
// was measured. Fails when a bench fails or a promise is not kept.
import { spawn } from "node:child_process";
import { readdirSync } from "node:fs";
import { cpus, loadavg } from "node:os";
import { fileURLToPath } from "node:url";

const folder = fileURLToPath(new URL(".", import.meta.url));
const load = () =>
  loadavg()
    .map((figure) => figure.toFixed(1))
    .join(" ");

/** Benches that are run on each family in turn. */
const EACH_FAMILY = ["predict.bench.ts", "run.bench.ts", "suspect.bench.ts", "tables.bench.ts"];
const families = ["tumble-dryer", "dishwasher", "washing-machine"];

/** Runs one bench, showing what it prints; its promises, and whether it ended well. */
function run(file, ...args) {
  return new Promise((resolve) => {
    let printed = "";
    const child = spawn(process.execPath, ["--import", "tsx", folder + file, ...args], {
      stdio: ["ignore", "pipe", "inherit"],
    });
    child.stdout.on("data", (chunk) => {
      printed += chunk;
      process.stdout.write(chunk);
    });
    child.on("close", (code) => {
      const promises = printed
        .split("\n")
        .filter((line) => line.startsWith("promise | "))
        .map((line) => line.split(" | ").slice(1));
      resolve({ file, code, promises });
    });
  });
}

console.log(`${cpus().length} processors, load average ${load()}; times are of the processor unless said otherwise`);
const done = [];
for (const file of readdirSync(folder)
  .filter((name) => name.endsWith(".bench.ts"))
  .sort()) {
  for (const args of EACH_FAMILY.includes(file) ? families.map((family) => [family]) : [[]]) {
    console.log(`\n== ${[file, ...args].join(" ")}`);
    done.push(await run(file, ...args));
  }
}

const rows = [["what", "asked", "measured", ""], ...done.flatMap(({ promises }) => promises)];
const widths = [0, 1, 2].map((column) => Math.max(...rows.map((row) => row[column].length)));
console.log("\n== asked and measured");
for (const row of rows) console.log(row.map((cell, column) => cell.padEnd(widths[column] ?? 0)).join("   "));
console.log(`load average at the end ${load()}`);
const failed = done.filter(({ code }) => code !== 0);
if (failed.length > 0) console.log(`failed: ${failed.map(({ file }) => file).join(", ")}`);
process.exitCode = failed.length > 0 ? 1 : 0;
