// The sums behind the phone's sensors, run without a phone: a list of {call, given} on stdin, the list of answers on stdout.

import { readFileSync } from "node:fs";
import { registerHooks } from "node:module";

// The app's files leave out the ending, as its bundler lets them.
registerHooks({
  resolve: (name, from, next) => next(/^\.\.?\/[^.]+$/.test(name) ? `${name}.ts` : name, from),
});

const from = (name) => import(`../../pwa/src/sensors/${name}.ts`);
const sums = { angle: await from("angle"), tone: await from("tone"), stopping: await from("stopping"), spread: await from("spread") };
// What comes from the microphone is no plain list.
const SOUND = new Set(["tone.toneOf", "tone.pluckIn"]);

const answers = JSON.parse(readFileSync(0, "utf8")).map(({ call, given }) => {
  const [file, name] = call.split(".");
  const [first, ...rest] = given;
  return sums[file][name](SOUND.has(call) ? Float32Array.from(first) : first, ...rest) ?? null;
});
process.stdout.write(JSON.stringify(answers));
