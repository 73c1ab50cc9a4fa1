/**
 * Recording the good rows of a table. Each row is whole or not at all; a long table goes some rows at a time, and what the phone
 * could not save any more stays with the table. A row has its part's id from the start, so that one already on the record is
 * known again when the app was closed in the middle.
 */

import { signal } from "@preact/signals";
import type { BikeState } from "../../kernel/types";
import { record, Unfinished } from "../../store/record";
import type { Draft, Entry } from "../../store/types";
import type { GoodRow, Row } from "./csv-rows";
import { w } from "./words";

/** What is being recorded just now, whatever sheet is open. */
export const recording = signal<{ subject: string; done: number; of: number } | null>(null);

export interface Recorded {
  entries: Entry[];
  /** So many of the rows are on the record, from the first on. */
  rows: number;
  /** Why it went no further. */
  problem: string | null;
}

/** `batch` is the reading of the file that the rows are of. The caller ends `recording` when it has put away what is left. */
export async function recordRows(state: BikeState, rows: GoodRow[], batch: string): Promise<Recorded> {
  const { subject } = state;
  const progress = (done: number) => {
    recording.value = { subject, done, of: rows.length };
  };
  progress(0);
  try {
    const entries = await record.writeGroups(draftsOf(state, rows, batch), progress);
    return { entries, rows: rows.length, problem: null };
  } catch (error) {
    if (!(error instanceof Unfinished)) throw error;
    return { entries: error.entries, rows: error.groups, problem: error.message };
  }
}

/** The rows whose parts this bike has not had yet. */
export function notYetRecorded(rows: Row[], state: BikeState, batch: string): Row[] {
  const had = new Set([...state.parts, ...state.removed].map((part) => part.part));
  return rows.filter((row) => !had.has(partId(batch, row.line)));
}

/** The id the part of a line gets: that of the reading, its last group being the line's number. */
function partId(batch: string, line: number): string {
  return batch.slice(0, -12) + line.toString(16).padStart(12, "0");
}

/** What each row writes: the part it takes the place of comes off, it goes on, and what the scale said. */
function draftsOf(state: BikeState, rows: GoodRow[], batch: string): Draft[][] {
  const { subject } = state;
  const on = new Map<string, string[]>();
  for (const { slot, part } of state.parts) on.set(slot, [...(on.get(slot) ?? []), part]);
  return rows.map((row) => {
    const made: Draft[] = (on.get(row.slot) ?? []).map((old) => ({
      subject,
      kind: "part-remove",
      body: { part: old, reason: w.parts.swappedFor(row.name) },
    }));
    const part = partId(batch, row.line);
    const { slot, name, count, claimed, price } = row;
    const markings = Object.keys(row.markings).length > 0 ? row.markings : undefined;
    const interfaces = row.interfaces.length > 0 ? row.interfaces : undefined;
    made.push({ subject, kind: "part-fit", body: { part, slot, name, count, claimed, price, markings, interfaces } });
    if (row.weighed !== undefined) made.push({ subject, kind: "weigh", body: { part, mass: row.weighed } });
    return made;
  });
}
