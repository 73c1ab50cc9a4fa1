/** A sensor that runs only while its sheet is open, and says when it may not. */

import { useEffect, useRef, useState } from "preact/hooks";
import { type End, Refused } from "./readings";

export function useReading(begin: () => Promise<End>) {
  const end = useRef<End | null>(null);
  const gone = useRef(false);
  const [state, setState] = useState<"shut" | "running" | "refused">("shut");
  const stop = () => {
    end.current?.();
    end.current = null;
  };
  useEffect(
    () => () => {
      gone.current = true;
      stop();
    },
    [],
  );
  const start = async () => {
    stop();
    try {
      const ended = await begin();
      // The sheet may have been shut while the person was still being asked.
      if (gone.current) ended();
      else {
        end.current = ended;
        setState("running");
      }
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      setState("refused");
    }
  };
  return { state, start, refuse: () => setState("refused") };
}
