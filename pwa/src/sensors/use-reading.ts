/** A sensor that runs only while its sheet is open, and says when it may not or cannot. */

import { useEffect, useRef, useState } from "preact/hooks";
import { keepAwake } from "../device";
import { type End, Refused } from "./readings";

export interface Reading {
  state: "shut" | "running" | "refused" | "none";
  start: () => Promise<void>;
  /** For what is only known later. */
  fail: (how: "refused" | "none") => void;
}

export function useReading(begin: () => Promise<End>): Reading {
  const end = useRef<End | null>(null);
  const gone = useRef(false);
  const [state, setState] = useState<Reading["state"]>("shut");
  const stop = () => {
    end.current?.();
    end.current = null;
  };
  const fail: Reading["fail"] = (how) => {
    stop();
    setState(how);
  };
  useEffect(keepAwake, []);
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
      fail(error instanceof Refused ? "refused" : "none");
    }
  };
  return { state, start, fail };
}
