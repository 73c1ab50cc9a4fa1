/** Shapes of events and their line-up. The Python kernel is the authority. */

import type { Reason, State, VerdictWord } from "./types";

/** `kernel/event.py`: an event's start list. */
export interface EventState extends State {
  described: { name: string | null; date: string | null; distance: number | null; place: string | null };
  starters: Starter[];
  withdrawn: Withdrawn[];
  /** Plates that were checked and nobody starts under. */
  unlisted: { plate: string }[];
}

/** A plate nobody starts under any more, with who had it; `now` is the plate they have instead. */
export interface Withdrawn {
  plate: string;
  bike?: string | null;
  rider?: string | null;
  name?: string | null;
  entry: string;
  at: string;
  by: string;
  reason: string | null;
  now: string | null;
}

export interface Starter {
  plate: string;
  bike: string | null;
  rider: string | null;
  name: string | null;
  entry: string;
  at: string;
  by: string;
}

/** `kernel/lineup.py`. */
export interface Lineup {
  rows: LineupRow[];
  unlisted: LineupRow[];
  tally: Record<LineupStatus, number>;
  starters: number;
}

export type LineupStatus = "undecided" | "not-seen" | "open" | "not-cleared" | "cleared" | "cleared-with-care";

export interface LineupRow {
  plate: string;
  bike: string | null;
  rider: string | null;
  name: string | null;
  bike_name: string | null;
  /** The entry that put them on the list; null where nobody starts under the plate. */
  entry: string | null;
  /** What two phones said differently of the plate. */
  question: "who" | "which-bike" | "starts" | null;
  status: LineupStatus;
  words: string | null;
  reasons: Reason[];
  checks: LineupCheck[];
}

export interface LineupCheck {
  entry: string;
  check: string | null;
  title: string | null;
  verdict: VerdictWord;
  scope: "whole" | "part";
  at: string;
  by: string;
  started_at?: string | null;
  finished_at?: string | null;
}
