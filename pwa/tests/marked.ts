/**
 * A language nobody speaks, for the tests: every letter that the program says is marked and every word is two fifths longer, so
 * that a screen shows at once what was said past the catalogue, and what has no room for longer words.
 */

import sentences from "../../var/kernel/sentences.json";
import { english as drawing } from "../src/drawing/words";
import type { Catalogue } from "../src/languages/spoken";
import { english as use } from "../src/screens/bike/use-words";
import { english as build } from "../src/screens/build/words";
import { english as team } from "../src/screens/device/team-words";
import { english as entry } from "../src/sensors/enter";
import { english as sensors } from "../src/sensors/words";
import { english as problems } from "../src/store/words";
import { english as app } from "../src/words";

const PLAIN = "abcdefghijklmnopqrstuvwxyz";
const MARKED = "àḃçďéƒğĥîĵķļɱñôþʠŕšţûṽŵẋýž";

/** One text marked; places to put in stay. */
export function mark(text: string): string {
  return text
    .split(/(\{\d+\})/)
    .map((part) => (part.startsWith("{") ? part : part.replaceAll(/\p{L}+/gu, word)))
    .join("");
}

function word(plain: string): string {
  const marked = [...plain].map((letter) => {
    const at = PLAIN.indexOf(letter.toLowerCase());
    const found = [...MARKED][at];
    return found === undefined ? letter : letter === letter.toLowerCase() ? found : found.toUpperCase();
  });
  return plain.length < 3 ? marked.join("") : marked.join("") + "ö".repeat(Math.round(plain.length * 0.4));
}

function marked<Value>(value: Value): Value {
  if (typeof value === "string") return mark(value) as Value;
  if (typeof value === "function") return ((...given: unknown[]) => marked(value(...given))) as Value;
  if (Array.isArray(value)) return value.map(marked) as Value;
  if (typeof value === "object" && value !== null)
    return Object.fromEntries(Object.entries(value).map(([name, one]) => [name, marked(one)])) as Value;
  return value;
}

export const catalogue: Catalogue = {
  files: marked({ app, build, use, team, drawing, problems, sensors: { ...entry, ...sensors }, heard: {} }),
  kernel: Object.fromEntries((sentences as string[]).map((one) => [one, mark(one)])),
};
