/** An entry as docs/record.md defines it, and how the phone keeps it. */

export interface Entry {
  id: string;
  subject: string;
  kind: string;
  noted_at: string;
  stamp: string;
  device: string;
  n: number;
  prev: string;
  seen: number;
  by: string;
  body: Record<string, unknown>;
}

/** An entry with the server's place beside it: `seq` is null until the server has it. */
export interface Kept {
  seq: number | null;
  received_at: string | null;
  /** The exact text the entry was written to once; its UTF-8 bytes are what is hashed and sent. */
  text: string;
  subject: string;
  id: string;
  stamp: string;
  device: string;
  n: number;
  /** The server would not take it: what it would make better than it is does not count (`ONLY_BETTER` in the kernel). */
  refused?: true;
}

/** A new entry before it is written: what a screen hands to the record. */
export interface Draft {
  subject: string;
  kind: string;
  body: Record<string, unknown>;
}

/** Who holds this phone, as the server said it at pairing. */
export interface Identity {
  /** `event`: the id of the one event a checker was let in for; null for all. */
  device: { id: string; name: string; event: string | null };
  person: Person;
  workshop: string;
}

export type Role = "owner" | "mechanic" | "checker" | "rider";

export interface Person {
  id: string;
  name: string;
  role: Role;
}

/** An entry the server would not take, with its reasons. It stays on the phone until somebody deals with it. */
export interface Refused {
  entry: Entry;
  errors: { field: string; given: string; wanted: string }[];
  /** Whether another was written in its place. */
  mended: boolean;
}

/**
 * - `idle` nothing waiting; `sending` at it now; `waiting` will try again by itself
 * - `offline` no way to the server; `signed-out` the queue is kept, pair again; `trouble` somebody has to look
 */
export type SyncWord = "idle" | "sending" | "offline" | "waiting" | "signed-out" | "trouble";

export interface SyncState {
  /** How many entries no receipt covers; null until they are counted. */
  unsent: number | null;
  refused: Refused[];
  /** Refused, and somebody has dealt with it. */
  dealtWith: Refused[];
  state: SyncWord;
  /** The matter in plain words, empty when there is none. */
  said: string;
  /** The last try found no way to the server; trying again changes nothing until it has answered. */
  lost: boolean;
  /** When the server last answered well, ISO. */
  lastOk: string | null;
  /** Set when this phone's clock and the server's differ by more than two minutes. */
  clock: string | null;
  /** Set while many entries come in: how many have, and of how many, where that can be told. */
  fetching: { done: number; of: number | null } | null;
}
