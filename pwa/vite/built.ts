/** Work on the folder of what was built, once everything is in it. */

import { readdirSync } from "node:fs";
import { join, resolve } from "node:path";
import type { Plugin, Rollup } from "vite";

/** `files` are the paths within `out`. */
type Work = (this: Rollup.PluginContext, out: string, files: string[]) => void | Promise<void>;

/** In the order in which the build names them. */
export function onceBuilt(name: string, work: Work): Plugin {
  let out = "";
  return {
    name,
    apply: "build",
    enforce: "post",
    configResolved(config) {
      out = resolve(config.root, config.build.outDir);
    },
    closeBundle: {
      order: "post",
      sequential: true,
      async handler() {
        if (this.environment.name === "client") await work.call(this, out, listing(out));
      },
    },
  };
}

function listing(folder: string): string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(folder.length + 1));
}
