/** A form being written, kept on the phone until it is recorded: neither leaving the sheet nor the phone going off costs a word. */

import { keep } from "../store/drafts";

interface HalfWritten<Fields> {
  fields: Fields;
  put: (changed: Partial<Fields>) => void;
  /** It is on record. */
  done: () => void;
}

/** `key` says of what it is; `empty` is how the form starts. Reads a signal: the form follows what was kept as soon as it is read. */
export function useHalfWritten<Fields extends object>(key: string, empty: Fields): HalfWritten<Fields> {
  const kept = keep.kept<Fields | null>(`form ${key}`, null);
  return {
    fields: kept.value ?? empty,
    put: (changed) => {
      kept.value = { ...(kept.peek() ?? empty), ...changed };
    },
    done: () => {
      kept.value = null;
    },
  };
}
