// What the phone makes of words said in its language, run without a phone: {code, texts} on stdin, the English on stdout.

import { readFileSync } from "node:fs";
import { inEnglish } from "../../pwa/src/languages/heard.ts";

const { code, texts } = JSON.parse(readFileSync(0, "utf8"));
const { heard } = await import(`../../pwa/src/languages/${code}/heard.ts`);
process.stdout.write(JSON.stringify(texts.map((text) => inEnglish(text, heard))));
