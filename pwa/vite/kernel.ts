/** The Python kernel as a module: `virtual:kernel` exports its files, name to text. */

import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Plugin } from "vite";
import { lean } from "./lean.ts";

const NAME = "virtual:kernel";
const RESOLVED = `\0${NAME}`;

/** `folder` is the package's folder; only its .py files are taken. */
export function kernel(folder: string): Plugin {
  return {
    name: "pinchbolt-kernel",
    resolveId(id) {
      return id === NAME ? RESOLVED : null;
    },
    load(id) {
      if (id !== RESOLVED) return null;
      const files: Record<string, string> = {};
      for (const name of readdirSync(folder).sort()) {
        if (!name.endsWith(".py")) continue;
        const path = join(folder, name);
        this.addWatchFile(path);
        files[name] = lean(readFileSync(path, "utf8"), name);
      }
      if (!("calls.py" in files)) this.error(`no calls.py in ${folder}: the kernel is not there`);
      return `export default ${JSON.stringify(files)};`;
    },
  };
}
