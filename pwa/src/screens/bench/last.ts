/**
 * What a sheet of the bench was left with: its inputs, and what the kernel came to from them. The answer is shown at the next start
 * while the engine still begins, for the very same inputs and the very same kernel only; then the engine computes it anew.
 */

import { KERNEL } from "../../folding";
import type { Answer, Calculation } from "../../kernel/types";
import { keep } from "../../store/drafts";
import type { Inputs } from "./inputs";

/** Milliseconds of quiet after which an answer is worth keeping: not one for every key that is struck. */
const QUIET = 400;

export interface Last {
  /** The inputs as they went to the kernel, as JSON text. */
  inputs: string;
  answer: Answer;
}

export interface Sheet {
  inputs: Inputs | undefined;
  /** Null when there is none, or one of another kernel. */
  last: Last | null;
}

const inputsOf = (id: string) => `inputs ${id}`;
const answerOf = (id: string) => `answer ${id}`;

export async function readSheet(id: string): Promise<Sheet> {
  const [inputs, kept] = await Promise.all([keep.get<Inputs>(inputsOf(id)), keep.get<Last & { by: string }>(answerOf(id))]);
  return { inputs, last: kept?.by === KERNEL ? kept : null };
}

export function keepInputs(calculation: Calculation, inputs: Inputs): void {
  void keep.set(inputsOf(calculation.id), inputs);
}

/** Keep it once the hands rest. Calling what is returned gives it up. */
export function keepAnswer(calculation: Calculation, last: Last): () => void {
  const waiting = setTimeout(() => {
    // A phone with no room left computes it at the next start.
    keep.set(answerOf(calculation.id), { ...last, by: KERNEL }).catch(() => undefined);
  }, QUIET);
  return () => clearTimeout(waiting);
}
