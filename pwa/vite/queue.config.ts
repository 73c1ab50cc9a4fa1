/** Builds tests/queue.ts to one script: a function that opens a phone in a world that is given to it. Only for tests. */

import { fileURLToPath } from "node:url";
import { defineConfig } from "vite";

/** What the world gives instead of the browser's own. */
const WORLD = ["fetch", "indexedDB", "navigator", "Date", "BroadcastChannel", "setTimeout"];

export default defineConfig({
  publicDir: false,
  build: {
    outDir: "../var/queue-test",
    emptyOutDir: true,
    minify: false,
    lib: {
      entry: fileURLToPath(new URL("../tests/queue.ts", import.meta.url)),
      formats: ["iife"],
      name: "store",
      fileName: () => "queue.js",
    },
    rolldownOptions: {
      output: {
        banner: `globalThis.openStore = (world) => { const { ${WORLD.join(", ")} } = world;`,
        footer: "return store; };",
      },
    },
  },
});
