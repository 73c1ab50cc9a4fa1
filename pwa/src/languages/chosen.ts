/** Which language this phone speaks: the one chosen under Device, else the first of the browser's that there is, else English. */

import { type Catalogue, speak } from "./spoken";

/** Each by its own name, as people look for it. */
const NAMES: Record<string, string> = { en: "English", de: "Deutsch", fr: "Français", es: "Español" };

const FOLDERS = import.meta.glob<{ catalogue: Catalogue }>("./*/index.ts");

const loaders = new Map(Object.entries(FOLDERS).map(([path, load]) => [path.split("/")[1] ?? "", load]));

// A made-up language with every word marked, for the tests. It is in no other build.
if (import.meta.env.MODE === "test") loaders.set("xx", () => import("../../tests/marked"));

/** What can be chosen: code and name. */
export const LANGUAGES = Object.entries(NAMES)
  .filter(([code]) => code === "en" || loaders.has(code))
  .map(([code, name]) => ({ code, name }));

// localStorage and not the phone's database: it must be known before the first word.
const KEY = "pinchbolt-language";

function kept(): string | null {
  try {
    return localStorage.getItem(KEY);
  } catch {
    return null;
  }
}

// A worker, or a test's world, may have no such list.
const wished: readonly string[] = globalThis.navigator?.languages ?? [];

function choose(): string {
  const there = (code: string) => code === "en" || loaders.has(code);
  const own = kept();
  if (own !== null && there(own)) return own;
  return wished.map((tag) => tag.slice(0, 2).toLowerCase()).find(there) ?? "en";
}

/** The language's code. */
export const language = choose();

/** How numbers and dates are written: as the phone's own country does where it speaks this language. */
const made = import.meta.env.MODE === "test" && language === "xx" ? "el" : null;

export const locale: string = made ?? wished.find((tag) => tag.slice(0, 2).toLowerCase() === language) ?? language;

const MARK = "pinchbolt-decimal-mark";

/** Kept for the country: asking the browser anew at every start takes it longer than drawing the first sheet. */
function markOf(country: string): "." | "," {
  try {
    const found = localStorage.getItem(MARK);
    if (found === `${country} ,`) return ",";
    if (found === `${country} .`) return ".";
  } catch {
    // Not allowed to keep it: then it is asked.
  }
  const mark = (1.5).toLocaleString(country).includes(",") ? "," : ".";
  try {
    localStorage.setItem(MARK, `${country} ${mark}`);
  } catch {
    // The same.
  }
  return mark;
}

export const decimalMark = markOf(locale);

/** A text within a sentence: small, where the language has small nouns. */
export function small(text: string): string {
  return language === "de" ? text : text.toLocaleLowerCase(locale);
}

/** Keep the choice and start anew with it. */
export function chooseLanguage(code: string): void {
  try {
    localStorage.setItem(KEY, code);
  } catch {
    // Not allowed to keep it: the browser's language stays.
  }
  location.reload();
}

/** Make the words ready. Null when they are: English waits for nothing. Without its words another language falls back to English. */
export function startLanguage(): Promise<void> | null {
  const load = loaders.get(language);
  if (load === undefined) return null;
  return Promise.all([load(), import("./kernel-words")]).then(
    ([{ catalogue }, { speaker }]) => {
      document.documentElement.lang = language;
      speak(catalogue, speaker(catalogue.kernel, decimalMark));
    },
    () => undefined,
  );
}
