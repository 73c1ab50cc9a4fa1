/** The size of what is built, as it goes over the line, against a budget: a build that goes over it fails. */

import { statSync } from "node:fs";
import { join } from "node:path";
import type { Plugin } from "vite";
import { onceBuilt } from "./built.ts";

export interface Budget {
  /** kB (1000 bytes) gzipped of script and style the page needs before the engine. */
  first: number;
  /** kB with Brotli of everything kept for working without a network. */
  everything: number;
}

/** Asked for by the browser itself, kept only where it is used (reader of codes, languages: see sw.ts), or a test's. */
const ASIDE =
  /^(sw\.js|icon-(180|512)\.png|shot-.*\.png|\.sources|(tests|controls)\.html|assets\/(zxing_reader|ponyfill|language|tests|controls)-.*)$/;
const PACKED = /\.(br|gz)$/;

export function sizes(budget: Budget): Plugin {
  /** What index.html brings before anything is asked for: its script, what that imports outright, and their style. */
  const first = new Set<string>();
  return {
    ...onceBuilt("pinchbolt-sizes", function (out, built) {
      const files = built.filter((path) => !PACKED.test(path));
      const sum = (list: string[], ending: string) =>
        list.reduce((total, path) => total + size(join(out, path), ending), 0) / 1000;
      const offline = files.filter((path) => !ASIDE.test(path));
      const told = {
        first: sum(
          files.filter((path) => first.has(path)),
          ".gz",
        ),
        everything: sum(offline, ".br"),
      };
      for (const path of offline.sort((a, b) => size(join(out, b), ".br") - size(join(out, a), ".br")).slice(0, 14)) {
        this.info(`${(size(join(out, path), ".br") / 1000).toFixed(1).padStart(7)} kB  ${path}`);
      }
      this.info(`before the engine ${told.first.toFixed(1)} kB of ${budget.first}`);
      this.info(
        `kept offline      ${told.everything.toFixed(1)} kB of ${budget.everything} (gzipped ${sum(offline, ".gz").toFixed(1)})`,
      );
      if (told.first > budget.first) this.error(`script and style before the engine: over ${budget.first} kB gzipped`);
      if (told.everything > budget.everything) this.error(`everything kept offline: over ${budget.everything} kB with Brotli`);
    }),
    generateBundle(_options, bundle) {
      if (this.environment.name !== "client") return;
      const follow = (name: string): void => {
        const chunk = bundle[name];
        if (first.has(name) || chunk?.type !== "chunk") return;
        first.add(name);
        for (const style of chunk.viteMetadata?.importedCss ?? []) first.add(style);
        chunk.imports.forEach(follow);
      };
      for (const chunk of Object.values(bundle)) {
        if (chunk.type === "chunk" && chunk.isEntry && chunk.facadeModuleId?.endsWith("index.html")) follow(chunk.fileName);
      }
      if (first.size === 0) this.error("no entry of index.html in the bundle: its size cannot be told");
    },
  };
}

/** Of a file's packed neighbour (`packing.ts`); of the file itself where that was no gain. */
function size(path: string, ending: string): number {
  return (statSync(path + ending, { throwIfNoEntry: false }) ?? statSync(path)).size;
}
