import { defineConfig } from "vite";

/** Bundles the command into one file, so that it starts fast and needs no compiler on the machine it runs on. */
export default defineConfig({
  build: {
    ssr: "src/shell/cli/main.ts",
    outDir: "dist",
    emptyOutDir: true,
    target: "node20",
    rollupOptions: { output: { entryFileNames: "faultwright.mjs" } },
  },
  ssr: { noExternal: ["commander", "yaml"] },
});
