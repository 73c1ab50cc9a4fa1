// The phone's way of putting the kernel's texts over, run without a phone: {told, mark, texts} on stdin, texts on stdout.

import { readFileSync } from "node:fs";
import { speaker } from "../../pwa/src/languages/kernel-words.ts";

const { told, mark, texts } = JSON.parse(readFileSync(0, "utf8"));
const said = speaker(told, mark);
process.stdout.write(JSON.stringify(texts.map(said)));
