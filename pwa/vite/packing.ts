/** Lays beside every file of the app the same file packed, so that the server packs none while a phone waits. */

import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { promisify } from "node:util";
import { brotliCompress, constants, gzip } from "node:zlib";
import type { Plugin } from "vite";
import { onceBuilt } from "./built.ts";

/** What `server/pinchbolt/api/web.py` looks for, by what a browser says it unpacks. */
const PACKERS = {
  br: (content: Buffer, path: string) =>
    promisify(brotliCompress)(content, {
      params: {
        [constants.BROTLI_PARAM_QUALITY]: 11,
        [constants.BROTLI_PARAM_LGWIN]: 22,
        [constants.BROTLI_PARAM_SIZE_HINT]: content.length,
        // Machine code changes its habits sooner than text: smaller blocks save 0.4 kB of the engine.
        [constants.BROTLI_PARAM_LGBLOCK]: path.endsWith(".wasm") ? 16 : 0,
      },
    }),
  gz: (content: Buffer) => promisify(gzip)(content, { level: 9 }),
};

/** Packed already, or nobody's to fetch. */
const LEFT = /(\.(woff2|png)|\.sources)$/;

export function packing(): Plugin {
  return onceBuilt("pinchbolt-packing", async (out, files) => {
    await Promise.all(files.filter((path) => !LEFT.test(path)).map((path) => pack(join(out, path))));
  });
}

async function pack(path: string): Promise<void> {
  const content = await readFile(path);
  for (const [ending, packer] of Object.entries(PACKERS)) {
    const packed = await packer(content, path);
    if (packed.length < content.length) await writeFile(`${path}.${ending}`, packed);
  }
}
