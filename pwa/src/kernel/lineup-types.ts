/** Shapes of events and their line-up. The Python kernel is the authority. */

import type { Reason, State, VerdictWord } from "./types";

/** `kernel/event.py`: an event's start list. */
export interface EventState extends State {
  described: { name: string | null; date: string | null; distance: number | null; place: string | null };
  starters: Starter[];
  withdrawn: { plate: string; entry: string; at: string; by: string; reason?: string | null }[];
  /** Plates that were checked and nobody starts under. */
  unlisted: { plate: string }[];
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

export type LineupStatus = "not-seen" | "open" | "not-cleared" | "cleared" | "cleared-with-care";

export interface LineupRow {
  plate: string;
  bike: string | null;
  rider: string | null;
  name: string | null;
  bike_name: string | null;
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
