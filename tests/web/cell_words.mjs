// What a table's cell means, without a browser: {flags: [[cell, yes, no]], known: [[cell, known, saidAs]]} on stdin.

import { readFileSync } from "node:fs";
import { flagIn, knownIn } from "../../pwa/src/files/table-words.ts";

const { flags, known } = JSON.parse(readFileSync(0, "utf8"));
process.stdout.write(
  JSON.stringify({
    flags: flags.map(([cell, yes, no]) => flagIn(cell, yes, no) ?? null),
    known: known.map(([cell, words, said]) => knownIn(cell, words ?? undefined, (one) => said[one] ?? one)),
  }),
);
