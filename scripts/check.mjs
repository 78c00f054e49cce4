// Every check in one run: types, lint, unused code, then the tests. Each of the first counts as one check;
// the last line is the plain count that CI reads. Exit code 1 when anything failed.
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const bin = (name) => join("node_modules", ".bin", name);
const gates = [
  ["types", [bin("tsc"), "-p", "tsconfig.json"]],
  ["types of the app (DOM, no Node)", [bin("tsc"), "-p", "tsconfig.web.json"]],
  ["types of the core alone (no DOM, no Node)", [bin("tsc"), "-p", "tsconfig.core.json"]],
  ["lint and format", [bin("biome"), "check", "--error-on-warnings", "."]],
  ["unused code and dependencies", [bin("knip"), "--no-progress"]],
];

let passed = 0;
let failed = 0;
let skipped = 0;

for (const [name, [command, ...args]] of gates) {
  process.stdout.write(`${name} ... `);
  const run = spawnSync(command, args, { encoding: "utf8", maxBuffer: 64 << 20 });
  if (run.status === 0) {
    passed++;
    console.log("ok");
  } else {
    failed++;
    console.log("FAILED");
    console.log((run.stdout ?? "") + (run.stderr ?? "") + (run.error?.message ?? ""));
  }
}

console.log("tests ...");
const out = mkdtempSync(join(tmpdir(), "faultwright-check-"));
const report = join(out, "tests.json");
const tests = spawnSync(
  bin("vitest"),
  ["run", "--reporter=default", "--reporter=json", `--outputFile.json=${report}`],
  {
    stdio: "inherit",
    env: { ...process.env, TZ: "UTC", LC_ALL: "C.UTF-8" },
  },
);
try {
  const counts = JSON.parse(readFileSync(report, "utf8"));
  passed += counts.numPassedTests;
  failed += counts.numFailedTests;
  skipped += counts.numPendingTests + counts.numTodoTests;
  // A file that failed to load holds no test, so it would not be counted.
  if (counts.numFailedTests === 0 && tests.status !== 0) failed++;
} catch {
  failed++;
  console.log("the tests left no report");
}
rmSync(out, { recursive: true, force: true });

console.log(`${passed} passed, ${failed} failed, ${skipped} skipped`);
process.exit(failed === 0 ? 0 : 1);
