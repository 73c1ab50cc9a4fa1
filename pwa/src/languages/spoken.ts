/**
 * A person's language in the place of English. A file of words says them in English and hands them to `spoken`; where another
 * language is loaded its words stand in their place, whether they come before the file or after it.
 */

import type { DrawingWords } from "../drawing/words";
import type { UseWords } from "../screens/bike/use-words";
import type { BuildWords } from "../screens/build/words";
import type { TeamWords } from "../screens/device/team-words";
import type { SensorWords } from "../sensors/words";
import type { ProblemWords } from "../store/words";
import type { AppWords } from "../words";
import type { HeardWords } from "./heard";

/** One language: its words by file, and what the kernel says. */
export interface Catalogue {
  files: {
    app: AppWords;
    build: BuildWords;
    use: UseWords;
    team: TeamWords;
    drawing: DrawingWords;
    problems: ProblemWords;
    sensors: SensorWords;
    heard: HeardWords;
  };
  /** The kernel's sentences: English template to this language's. */
  kernel: Record<string, string>;
}

let catalogue: Catalogue | null = null;
let kernelSaid = (text: string): string => text;
/** Some are in two places, so that the first of them need not bring the rest. */
const inEnglish: [keyof Catalogue["files"], object][] = [];

/**
 * The words of `file`, in the language chosen. Reach them through the object (`words.close`): what is taken out of it while
 * modules are still being read stays English.
 */
export function spoken<Words extends object>(file: keyof Catalogue["files"], english: Words): Words {
  inEnglish.push([file, english]);
  return Object.assign(english, catalogue?.files[file]);
}

/** The kernel's text where it is shown. The record keeps it in English. */
export function said(text: string): string {
  return kernelSaid(text);
}

/** From now on this language is spoken. Before the first screen. */
export function speak(loaded: Catalogue, kernel: (text: string) => string): void {
  catalogue = loaded;
  kernelSaid = kernel;
  for (const [file, english] of inEnglish) Object.assign(english, loaded.files[file]);
}

/** Words looked up by names that others may add to: each of these must be there in every language, any other may be missing. */
export type Named<Name extends string, Word> = Record<Name, Word> & Record<string, Word>;

export function named<Name extends string, Word = string>(found: Record<Name, Word>): Named<Name, Word> {
  return found as Named<Name, Word>;
}
