import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import type { Plugin } from "vite";
import { Engine } from "../src/shell/web/engine/engine.ts";
import type { FactTexts } from "../src/shell/web/engine/facts.ts";
import { writeView } from "../src/shell/web/engine/view-file.ts";
import { exampleFile } from "../src/shell/web/jobs/example-job.ts";

/** All that a view hangs on besides the facts. */
const SOURCES = ["src/core", "src/shell/words", "src/shell/web/engine", "src/shell/web/jobs"];

/**
 * What the engine makes of each job of the demonstration as it is first opened: on a new device there is then a step to
 * look at while the engine wakes. Worked out by the very sources that are built, from the very facts; kept from build to
 * build while none of them changes, since it takes half a minute.
 *
 * @param gather  gives the facts, as the app is given them
 */
export function viewsAhead(gather: () => string): Plugin {
  return {
    name: "faultwright-views-ahead",
    generateBundle() {
      const facts = gather();
      const kept = join("node_modules/.cache/faultwright", `views-${nameOf(facts)}.json`);
      const views: Readonly<Record<string, string>> = existsSync(kept)
        ? JSON.parse(readFileSync(kept, "utf8"))
        : viewsOf(JSON.parse(facts));
      mkdirSync(dirname(kept), { recursive: true });
      writeFileSync(kept, JSON.stringify(views));
      for (const [name, source] of Object.entries(views))
        this.emitFile({ type: "asset", fileName: `ahead/${name}.json`, source });
    },
  };
}

function viewsOf(facts: FactTexts): Readonly<Record<string, string>> {
  const engine = new Engine(facts);
  return Object.fromEntries(
    Object.entries(facts.examples).map(([name, example]) => [name, writeView(engine.view(exampleFile(example)))]),
  );
}

/** A name for the facts and for every source, by what is in them. */
function nameOf(facts: string): string {
  const hash = createHash("sha256").update(facts);
  for (const folder of SOURCES) {
    const files = readdirSync(folder, { recursive: true, encoding: "utf8" }).filter((file) => /\.tsx?$/.test(file));
    for (const file of files.sort()) hash.update(file).update(readFileSync(join(folder, file)));
  }
  return hash.digest("hex").slice(0, 16);
}
