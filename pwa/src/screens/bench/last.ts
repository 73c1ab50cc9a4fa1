/**
 * What the bench was left with: the inputs of each sheet, and of the sheet last worked at what the kernel came to from them. That
 * answer is shown at the next start while the engine still begins, for the very same inputs and the very same kernel only; then the
 * engine computes it anew.
 */

import { KERNEL } from "../../folding";
import type { Answer, Calculation } from "../../kernel/types";
import { language } from "../../languages/chosen";
import { keep } from "../../store/drafts";
import type { Inputs } from "./inputs";

/** Milliseconds of quiet after which an answer is worth keeping: not one for every key that is struck. */
const QUIET = 400;

// localStorage and not the phone's database: it is there before the first paint.
const LEFT = "pinchbolt-sheet";
/** By whom an answer is: its texts are in the language it was given in. */
const BY = `${KERNEL} ${language}`;
/** Characters; a longer one is read slower than computed. */
const MOST = 200_000;

export interface Last {
  /** The inputs as they went to the kernel, as JSON text. */
  inputs: string;
  answer: Answer;
}

export interface Left {
  calculation: Calculation;
  last: Last;
}

/** Null when it was not left last, or by another kernel. */
export function leftAt(id: string): Left | null {
  try {
    const left = JSON.parse(localStorage.getItem(LEFT) ?? "null") as (Left & { by: string }) | null;
    return left?.by === BY && left.calculation.id === id ? left : null;
  } catch {
    return null;
  }
}

export function readInputs(id: string): Promise<Inputs | undefined> {
  return keep.get<Inputs>(inputsOf(id));
}

export function keepInputs(calculation: Calculation, inputs: Inputs): void {
  void keep.set(inputsOf(calculation.id), inputs);
}

const inputsOf = (id: string) => `inputs ${id}`;

/** Keep it once the hands rest. Calling what is returned gives it up. */
export function keepAnswer(calculation: Calculation, last: Last): () => void {
  const waiting = setTimeout(() => {
    const text = JSON.stringify({ by: BY, calculation, last });
    try {
      if (text.length <= MOST) localStorage.setItem(LEFT, text);
    } catch {
      // A phone with no room left computes it at the next start.
    }
  }, QUIET);
  return () => clearTimeout(waiting);
}
