/** Asking the kernel something about a bike as it stands, again whenever it changes. */

import { useEffect, useState } from "preact/hooks";
import { InputProblems } from "../../kernel/client";
import type { BikeState } from "../../kernel/types";

/** undefined until the first answer. A new state keeps the last answer on the sheet until the next one is there. */
export function useAsked<Answer>(ask: () => Promise<Answer>, ...on: unknown[]): Answer | undefined {
  const { answer, refused } = useTried(ask, ...on);
  if (refused !== null) throw refused;
  return answer;
}

interface Tried<Answer> {
  answer: Answer | undefined;
  /** What the kernel could not take; there is no answer then. */
  refused: InputProblems | null;
}

/**
 * The same where the figures are a person's, just typed or long on the record: what cannot be taken is said in its place and
 * costs nobody the rest of the sheet.
 */
export function useTried<Answer>(ask: () => Promise<Answer>, ...on: unknown[]): Tried<Answer> {
  const [tried, setTried] = useState<Tried<Answer>>({ answer: undefined, refused: null });
  const [failed, setFailed] = useState<unknown>(null);
  useEffect(() => {
    let over = false;
    ask().then(
      (answer) => {
        if (!over) setTried({ answer, refused: null });
      },
      (error: unknown) => {
        if (over) return;
        if (error instanceof InputProblems) setTried({ answer: undefined, refused: error });
        else setFailed(error);
      },
    );
    return () => {
      over = true;
    };
  }, on);
  if (failed !== null) throw failed;
  return tried;
}

/** Rider, bike and load together, kg, when somebody has measured it. */
export function systemMass(state: BikeState): number | null {
  return state.measures.system_mass?.value ?? null;
}
