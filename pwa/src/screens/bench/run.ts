/** Running a calculation as one types: at most once a frame, the latest inputs winning. */

import { useEffect, useState } from "preact/hooks";
import { InputProblems, kernel } from "../../kernel/client";
import type { Answer, Calculation, Problem } from "../../kernel/types";
import type { Inputs } from "./inputs";
import { keepAnswer, type Last } from "./last";

interface Ran {
  answer: Answer | null;
  problems: Problem[];
  /** The answer belongs to inputs that have changed since. */
  stale: boolean;
  /** The answer is the one kept from the last time, of these very inputs; the engine has not yet come to it again. */
  kept: boolean;
}

export function useRun(calculation: Calculation, inputs: Inputs, complete: boolean, last: Last | null): Ran {
  const key = JSON.stringify(inputs);
  const [ran, setRan] = useState<{ key: string; answer: Answer | null; problems: Problem[] }>({
    key: "",
    answer: null,
    problems: [],
  });
  const [failed, setFailed] = useState<unknown>(null);
  useEffect(() => {
    if (!complete) {
      setRan({ key, answer: null, problems: [] });
      return;
    }
    let over = false;
    const frame = requestAnimationFrame(() => {
      kernel.run(calculation.id, JSON.parse(key) as Inputs).then(
        (answer) => {
          if (!over) setRan({ key, answer, problems: [] });
        },
        (error: unknown) => {
          if (over) return;
          if (error instanceof InputProblems) setRan({ key, answer: null, problems: error.problems });
          else setFailed(error);
        },
      );
    });
    return () => {
      over = true;
      cancelAnimationFrame(frame);
    };
  }, [calculation.id, key, complete]);
  useEffect(() => {
    if (ran.answer !== null) return keepAnswer(calculation, { inputs: ran.key, answer: ran.answer });
    return undefined;
  }, [calculation, ran]);
  if (failed !== null) throw failed;
  if (complete && ran.key !== key && last?.inputs === key)
    return { answer: last.answer, problems: [], stale: false, kept: true };
  return { answer: ran.answer, problems: ran.problems, stale: ran.key !== key, kept: false };
}
