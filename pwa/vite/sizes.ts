/** The size of what is built, gzipped, against a budget: a build that goes over it fails. */

import { readdirSync, readFileSync, statSync } from "node:fs";
import { join, resolve } from "node:path";
import { gzipSync } from "node:zlib";
import type { Plugin } from "vite";

export interface Budget {
  /** kB (1000 bytes) gzipped of script and style the page needs before the engine. */
  first: number;
  /** kB gzipped of everything kept for working without a network. */
  everything: number;
}

/** Asked for by the browser itself, kept only where it is used (reader of codes, languages: see sw.ts), or a test's. */
const ASIDE =
  /^(sw\.js|icon-(180|512)\.png|shot-.*\.png|\.sources|(tests|controls)\.html|assets\/(zxing_reader|ponyfill|language|tests|controls)-.*)$/;
const PACKED = /\.(woff2|png)$/;

export function sizes(budget: Budget): Plugin {
  let out = "";
  /** What index.html brings before anything is asked for: its script, what that imports outright, and their style. */
  const first = new Set<string>();
  return {
    name: "pinchbolt-sizes",
    apply: "build",
    enforce: "post",
    configResolved(config) {
      out = resolve(config.root, config.build.outDir);
    },
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
    closeBundle: {
      order: "post",
      sequential: true,
      handler() {
        if (this.environment.name !== "client") return;
        const files = listing(out).map((path) => ({ path, size: packed(join(out, path)) }));
        const sum = (list: { size: number }[]) => list.reduce((total, file) => total + file.size, 0) / 1000;
        const told = {
          first: sum(files.filter(({ path }) => first.has(path))),
          everything: sum(files.filter(({ path }) => !ASIDE.test(path))),
        };
        for (const file of files.sort((a, b) => b.size - a.size).slice(0, 14)) {
          this.info(`${(file.size / 1000).toFixed(1).padStart(7)} kB  ${file.path}`);
        }
        this.info(`before the engine ${told.first.toFixed(1)} kB of ${budget.first}`);
        this.info(`kept offline      ${told.everything.toFixed(1)} kB of ${budget.everything}`);
        if (told.first > budget.first) this.error(`script and style before the engine: over ${budget.first} kB gzipped`);
        if (told.everything > budget.everything) this.error(`everything kept offline: over ${budget.everything} kB gzipped`);
      },
    },
  };
}

function packed(path: string): number {
  return PACKED.test(path) ? statSync(path).size : gzipSync(readFileSync(path)).length;
}

function listing(folder: string): string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(folder.length + 1));
}
