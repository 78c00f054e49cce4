import { readdirSync, readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { fileURLToPath } from "node:url";
import react from "@vitejs/plugin-react";
import { defineConfig, type Plugin } from "vite";
import { viewsAhead } from "./scripts/views-ahead.ts";
import { readTree } from "./src/core/part/index.ts";
import { jsonOf } from "./src/core/part/json-tree.ts";

/** Folders of facts that the app carries with it, each as texts by name. */
const folders = ["kinds", "houses", "pieces", "meters", "costs", "sheets", "lives", "duties", "safety"];

/** A YAML file as JSON: the app then needs no reader of YAML. */
function asJson(file: string): string {
  const tree = readTree(readFileSync(file, "utf8"), file);
  if (!tree.ok) throw new Error(`${file}: ${JSON.stringify(tree.issues[0])}`);
  return jsonOf(tree.value);
}

function textsIn(folder: string): Readonly<Record<string, string>> {
  return Object.fromEntries(
    readdirSync(folder)
      .filter((file) => file.endsWith(".yaml"))
      .sort()
      .map((file) => [basename(file, ".yaml"), asJson(join(folder, file))]),
  );
}

/** All facts and the demonstration's jobs in one text. */
function gather(): string {
  return JSON.stringify({
    ...Object.fromEntries(folders.map((folder) => [folder, textsIn(join("data", folder))])),
    examples: textsIn("examples"),
  });
}

/** That text in a file beside the page, so that the engine finds it without a signal. */
function facts(): Plugin {
  return {
    name: "faultwright-facts",
    configureServer(server) {
      server.middlewares.use("/facts.json", (_request, response) => {
        response.setHeader("content-type", "application/json");
        response.end(gather());
      });
    },
    generateBundle() {
      this.emitFile({ type: "asset", fileName: "facts.json", source: gather() });
    },
  };
}

/** The names of everything built, written into the service worker: that list is what works without a signal. */
function offline(): Plugin {
  return {
    name: "faultwright-offline",
    enforce: "post",
    generateBundle(_options, bundle) {
      const files = Object.keys(bundle).filter((file) => !file.endsWith(".map"));
      const source = readFileSync("src/shell/web/offline/service-worker.js", "utf8");
      const stamp = files.join("|");
      let hash = 0;
      for (let i = 0; i < stamp.length; i++) hash = (Math.imul(hash, 31) + stamp.charCodeAt(i)) | 0;
      for (const file of files) {
        const part = bundle[file];
        const text = part === undefined ? "" : part.type === "chunk" ? part.code : String(part.source);
        for (let i = 0; i < text.length; i++) hash = (Math.imul(hash, 31) + text.charCodeAt(i)) | 0;
      }
      this.emitFile({
        type: "asset",
        fileName: "service-worker.js",
        source: source
          .replace(
            '"__FILES__"',
            JSON.stringify([
              "./",
              ...files.filter((file) => file !== "index.html"),
              "icon.svg",
              "manifest.webmanifest",
            ]),
          )
          .replace("__BUILD__", (hash >>> 0).toString(36)),
      });
    },
  };
}

/** The app as a folder of static files that any https host serves from any path. */
/** The core is pure (`test/house/order.test.ts`): what of it nobody uses need not be carried. */
const treeshake = { moduleSideEffects: (id: string): boolean => !id.includes("/src/core/") };

export default defineConfig({
  root: "src/shell/web",
  base: "./",
  plugins: [react(), facts(), viewsAhead(gather), offline()],
  resolve: {
    alias: [
      {
        find: /^\.\/read-tree\.ts$/,
        replacement: fileURLToPath(new URL("src/core/part/json-tree.ts", import.meta.url)),
      },
    ],
  },
  worker: { format: "es", rolldownOptions: { treeshake } },
  build: { outDir: "../../../dist/app", emptyOutDir: true, target: "es2022", rolldownOptions: { treeshake } },
});
