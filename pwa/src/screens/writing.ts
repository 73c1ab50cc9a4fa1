/** Writing entries from a screen: one at a time, said when done, with a way back. */

import { signal } from "@preact/signals";
import { useState } from "preact/hooks";
import { settled } from "../controls/back";
import { unreadField } from "../controls/unread";
import { buzz } from "../device";
import { record } from "../store/record";
import type { Draft, Entry } from "../store/types";
import { words } from "../words";
import { writes } from "./who";

/** What was just recorded, shown at the foot of the sheet until the next thing happens. */
export const told = signal<{ text: string; entries: Entry[] } | null>(null);

let carried: unknown = null;

/** A new sheet: what was said goes along to the first one and no further. */
export function carryTold(): void {
  if (told.peek() !== null && told.peek() === carried) told.value = null;
  carried = told.peek();
}

/** What was written after them belongs to them: it is taken back with them. */
export function along(first: Entry[], after: Entry[]): void {
  const now = told.peek();
  if (now?.entries === first) told.value = { ...now, entries: [...first, ...after] };
}

export function useWriting() {
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  const write = async (drafts: Draft[], text: string): Promise<Entry[] | null> => {
    if (busy) return null;
    // The server would refuse it, and it would wait here for somebody to deal with it.
    if (!drafts.every(({ kind }) => writes(kind))) {
      setProblem(words.notYours);
      return null;
    }
    const unread = unreadField();
    if (unread !== null) {
      setProblem(words.mendFirst(unread));
      return null;
    }
    setBusy(true);
    setProblem(null);
    try {
      const entries = await record.write(drafts);
      told.value = { text, entries };
      buzz([10, 40, 10]);
      await settled();
      return entries;
    } catch (error) {
      setProblem(error instanceof Error ? error.message : String(error));
      return null;
    } finally {
      setBusy(false);
    }
  };
  return { write, busy, problem };
}

/** Take back what was just recorded: the entries stay in the log, voided. */
export async function undo(entries: Entry[]): Promise<void> {
  await record.writeGroups(
    entries.map((entry) => [{ subject: entry.subject, kind: "void", body: { entry: entry.id, reason: words.undoneAtOnce } }]),
  );
  told.value = { text: words.undone, entries: [] };
}
