import { useEffect, useState } from "preact/hooks";
import { keep } from "../../store/drafts";
import type { HalfDone } from "./half-done";

/** Whether a check was begun under this key and not brought to its end. */
export function useBegun(key: string): boolean {
  const [begun, setBegun] = useState(false);
  useEffect(() => {
    let over = false;
    void keep.get<HalfDone>(key).then((half) => {
      if (!over) setBegun(half !== undefined && Object.keys(half.answers).length > 0);
    });
    return () => {
      over = true;
    };
  }, [key]);
  return begun;
}
