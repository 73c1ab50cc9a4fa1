/** The phone's own keeping: one IndexedDB with the entries, the refused ones, the pen, and small things kept. */

import { type DBSchema, type IDBPDatabase, type IDBPTransaction, openDB, type StoreNames } from "idb";
import type { SigningKey } from "./signing";
import type { Identity, Kept, Person } from "./types";

/** What a subject's entries came to, kept so that it need not be folded anew; see snapshots.ts. */
export interface FoldRow {
  subject: string;
  /** The kernel that made it: another one may come to something else. */
  by: string;
  /** Of which revision `state` is. */
  revision: number;
  /** The kernel's snapshot as JSON text, of the first `rows` entries, the last of which stands at `key`; "" for none. */
  snapshot: string;
  key: string;
  rows: number;
  /** The whole fold; null when an entry came since. */
  state: unknown;
}

/** One subject in a list. `revision` goes up in the same transaction as any entry of the subject. */
export interface LineRow {
  subject: string;
  revision: number;
  /** Of which revision and circumstances (day, intervals, kernel) `line` is: another day has other things due. */
  lineRevision: number;
  made: string;
  line: unknown;
}

/** An entry as it is kept. Own entries carry what the queue needs. */
export interface Row extends Kept {
  /** The entry's own n while no receipt covers it; absent otherwise, so the index holds only what waits. */
  waiting?: number;
  /** SHA-256 of the text's bytes, own entries only: held against the server's receipt. */
  hash?: string;
  /** Refused and dealt with: its bytes stay, because later entries chain to them, but it counts no longer. */
  dismissed?: true;
}

export interface RefusedRow {
  id: string;
  n: number;
  text: string;
  errors: { field: string; given: string; wanted: string }[];
  /** Set when somebody has dealt with it: the id of the entry written in its place, "" when it was given up. */
  dealt?: string;
}

/** The device's pen: where its counter, chain and logical clock stand. */
export interface Pen {
  n: number;
  hash: string;
  stamp: string;
}

/** How far this device has pulled, and the highest stamp that came. */
export interface Pulled {
  cursor: number;
  stamp: string;
  /** Which life of the server's log the cursor is of; absent until a server has said. */
  epoch?: string;
}

export interface Facts {
  device: string;
  identity: Identity;
  people: Person[];
  pen: Pen;
  pulled: Pulled;
  key: SigningKey;
  /** The workshop shut this phone out. */
  shutOut: boolean;
}

interface Schema extends DBSchema {
  entries: {
    key: string;
    value: Row;
    indexes: { subject: string; waiting: number; own: [string, number]; story: [string, string] };
  };
  refused: { key: string; value: RefusedRow };
  facts: { key: keyof Facts; value: Facts[keyof Facts] };
  keep: { key: string; value: unknown };
  folds: { key: string; value: FoldRow };
  lines: { key: string; value: LineRow };
}

export type Database = IDBPDatabase<Schema>;

type StoreName = StoreNames<Schema>;

/** A transaction that may write entries: what is kept of their folds is in it too. */
export type Writing = IDBPTransaction<Schema, StoreName[], "readwrite">;

/** Begin one, over these stores and `more`; it is on the disk when it is done. */
export function writing(db: Database, ...more: StoreName[]): Writing {
  return db.transaction<StoreName[], "readwrite">(["entries", "folds", "lines", ...more], "readwrite", {
    durability: "strict",
  });
}

let opening: Promise<Database> | null = null;

/** Numbered upgrades, one a released schema. A queue written by an older version is carried on by every later one. */
function upgrade(
  db: Database,
  from: number,
  _to: number | null,
  tx: IDBPTransaction<Schema, StoreName[], "versionchange">,
): void {
  if (from < 1) {
    const entries = db.createObjectStore("entries", { keyPath: "id" });
    entries.createIndex("subject", "subject");
    entries.createIndex("waiting", "waiting");
    entries.createIndex("own", ["device", "n"]);
    db.createObjectStore("refused", { keyPath: "id" });
    db.createObjectStore("facts");
    db.createObjectStore("keep");
  }
  if (from < 2) {
    tx.objectStore("entries").createIndex("story", ["subject", "stamp"]);
    db.createObjectStore("folds", { keyPath: "subject" });
    db.createObjectStore("lines", { keyPath: "subject" });
    if (from === 1) void firstLines(tx);
  }
}

/** Every subject there is has its line, or it would not be listed. */
async function firstLines(tx: IDBPTransaction<Schema, StoreName[], "versionchange">): Promise<void> {
  let cursor = await tx.objectStore("entries").index("subject").openKeyCursor(null, "nextunique");
  while (cursor !== null) {
    await tx.objectStore("lines").put({ subject: cursor.key, revision: 1, lineRevision: 0, made: "", line: null });
    cursor = await cursor.continue();
  }
}

export function database(): Promise<Database> {
  opening ??= openDB<Schema>("pinchbolt", 2, {
    upgrade,
    // Another tab runs a newer version: let it upgrade, and open again when next needed.
    blocking(_current, _blocked, event) {
      (event.target as IDBDatabase).close();
      opening = null;
    },
    terminated() {
      opening = null;
    },
  }).catch((error: unknown) => {
    opening = null;
    throw error;
  });
  return opening;
}

export async function fact<Name extends keyof Facts>(name: Name): Promise<Facts[Name] | undefined> {
  const db = await database();
  return (await db.get("facts", name)) as Facts[Name] | undefined;
}

export async function setFact<Name extends keyof Facts>(name: Name, value: Facts[Name]): Promise<void> {
  const db = await database();
  await db.put("facts", value, name);
}
