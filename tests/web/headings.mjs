// What the headings of a table mean, without a browser: {start: [...], parts: [...]} on stdin, the columns on stdout.

import { readFileSync } from "node:fs";
import { partColumn, startColumn } from "../../pwa/src/files/table-words.ts";

const { start, parts } = JSON.parse(readFileSync(0, "utf8"));
process.stdout.write(JSON.stringify({ start: start.map(startColumn), parts: parts.map(partColumn) }));
