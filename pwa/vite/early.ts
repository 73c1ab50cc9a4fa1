/** Puts one entry into the page as a script of its own, before the program's, so that it runs while the rest is still read. */

import type { Plugin } from "vite";

/** `source` is the entry's file; it has to be among the build's inputs. */
export function early(source: string): Plugin {
  return {
    name: "pinchbolt-early",
    apply: "build",
    transformIndexHtml: {
      order: "post",
      handler(_html, { bundle, path }) {
        if (!path.endsWith("index.html")) return;
        const chunk = Object.values(bundle ?? {}).find((one) => one.type === "chunk" && one.facadeModuleId === source);
        if (chunk === undefined) throw new Error(`${source} is not among what was built`);
        // Without "async" it would wait for the page to be read to its end, in line with the others.
        return [{ tag: "script", attrs: { type: "module", async: true, src: `/${chunk.fileName}` }, injectTo: "head" }];
      },
    },
  };
}
