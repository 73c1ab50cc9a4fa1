/** Asking the kernel something about a bike as it stands, again whenever it changes. */

import { useEffect, useState } from "preact/hooks";
import type { BikeState } from "../../kernel/types";

/** undefined until the first answer. A new state keeps the last answer on the sheet until the next one is there. */
export function useAsked<Answer>(ask: () => Promise<Answer>, ...on: unknown[]): Answer | undefined {
  const [answer, setAnswer] = useState<Answer | undefined>(undefined);
  const [failed, setFailed] = useState<unknown>(null);
  useEffect(() => {
    let over = false;
    ask().then(
      (told) => {
        if (!over) setAnswer(() => told);
      },
      (error: unknown) => {
        if (!over) setFailed(error);
      },
    );
    return () => {
      over = true;
    };
  }, on);
  if (failed !== null) throw failed;
  return answer;
}

/** Rider, bike and load together, kg, when somebody has measured it. */
export function systemMass(state: BikeState): number | null {
  return state.measures.system_mass?.value ?? null;
}
