/** The record on the phone: writing entries, and reading what is kept. */

import { signal } from "@preact/signals-core";
import { uuidv7 } from "uuidv7";
import { tellChanged } from "./changes";
import { type Database, database, fact, type Pen, type Pulled, type Row, type Writing, writing } from "./database";
import { checkSize, cleaned } from "./draft";
import { withLock } from "./locks";
import { inOrder, touch } from "./snapshots";
import { FIRST_STAMP, NO_PREV, nextStamp, sha256 } from "./stamp";
import type { Draft, Entry, Identity, Kept, Person } from "./types";
import { problems } from "./words";

export { changed } from "./changes";

/** Who holds this phone; null until it is paired. */
export const identity = signal<Identity | null>(null);

/** Everybody of the workshop this person may know of. */
export const people = signal<Person[]>([]);

/** Nothing can be recorded before the phone knows who holds it. */
export class NotPaired extends Error {
  override name = "NotPaired";
  constructor() {
    super(problems.notPaired);
  }
}

/** Somebody has dealt with it, or the server has taken it meanwhile. */
export class NotRefused extends Error {
  override name = "NotRefused";
  constructor() {
    super(problems.notRefused);
  }
}

/** The workshop shut this phone out: what it fetched is gone, and what it keeps of its own says nothing of any bike. */
export const shutOut = signal(false);

/** Set when reading identity and people from the phone is done. Screens wait for it before they say "not paired". */
export const opened: Promise<void> = refreshPeople();

/** Read identity and people again from what is kept. */
export async function refreshPeople(): Promise<void> {
  identity.value = (await fact("identity")) ?? null;
  people.value = (await fact("people")) ?? [];
  shutOut.value = (await fact("shutOut")) ?? false;
}

const FRESH_PEN: Pen = { n: 0, hash: NO_PREV, stamp: FIRST_STAMP };
export const NOTHING_PULLED: Pulled = { cursor: 0, stamp: FIRST_STAMP };

/**
 * Write drafts as entries of this device, all or none. Resolves only when they are durably saved.
 * Throws NotPaired, DraftProblem, or what the browser says when it cannot save (storage full).
 */
function write(drafts: Draft | Draft[]): Promise<Entry[]> {
  return append(drafts, null);
}

/** `aside` is the refused entry that these stand in place of: it is put aside in the same transaction. */
async function append(drafts: Draft | Draft[], aside: string | null): Promise<Entry[]> {
  const entries = await saved(Array.isArray(drafts) ? drafts : [drafts], aside);
  if (entries.length > 0) tellChanged(entries.length);
  return entries;
}

/** Saving stopped before the end. What was saved by then stays. */
export class Unfinished extends Error {
  override name = "Unfinished";
  constructor(
    /** So many of the groups are saved, from the first on. */
    readonly groups: number,
    readonly entries: Entry[],
    cause: unknown,
  ) {
    super(cause instanceof Error ? cause.message : String(cause), { cause });
  }
}

/** So many drafts go into one transaction as do not hold up a touch on a slow phone. */
const DRAFTS_AT_A_TIME = 200;

/**
 * Write a long list: the drafts of a group all or none, some groups at a time, so that the screen goes on between. `progress` is
 * told how many groups are saved. The change is told once, at the end. Throws Unfinished when the phone stops saving midway.
 */
async function writeGroups(groups: Draft[][], progress: (groups: number) => void = () => {}): Promise<Entry[]> {
  const written: Entry[] = [];
  let done = 0;
  try {
    while (done < groups.length) {
      const batch: Draft[] = [];
      let end = done;
      while (end < groups.length && (end === done || batch.length + (groups[end]?.length ?? 0) <= DRAFTS_AT_A_TIME)) {
        batch.push(...(groups[end] ?? []));
        end += 1;
      }
      for (const entry of await saved(batch, null)) written.push(entry);
      done = end;
      progress(done);
    }
  } catch (error) {
    throw new Unfinished(done, written, error);
  } finally {
    if (written.length > 0) tellChanged(written.length);
  }
  return written;
}

/** Durably save drafts as the next entries of this device, all or none. */
async function saved(drafts: Draft[], aside: string | null): Promise<Entry[]> {
  const clean = drafts.map(cleaned);
  if (clean.length === 0) return [];
  const db = await database();
  return withLock("pinchbolt-pen", async () => {
    // Hashing is asynchronous and would end a transaction, so it is done before; the transaction then makes sure that nothing
    // moved meanwhile. With the lock nothing can but a pull, without it (old browsers) it is what keeps the counter whole.
    for (;;) {
      const made = await prepare(db, clean);
      if (await save(db, made, aside)) return made.entries;
    }
  });
}

interface Prepared {
  entries: Entry[];
  rows: Row[];
  before: { pen: Pen; pulled: Pulled };
  after: Pen;
}

async function prepare(db: Database, drafts: Draft[]): Promise<Prepared> {
  const tx = db.transaction("facts");
  const device = (await tx.store.get("device")) as string | undefined;
  const who = (await tx.store.get("identity")) as Identity | undefined;
  const pen = ((await tx.store.get("pen")) as Pen | undefined) ?? FRESH_PEN;
  const pulled = ((await tx.store.get("pulled")) as Pulled | undefined) ?? NOTHING_PULLED;
  await tx.done;
  if (device === undefined || who === undefined) throw new NotPaired();
  const entries: Entry[] = [];
  const rows: Row[] = [];
  let { n, hash } = pen;
  let stamp = later(pulled.stamp, pen.stamp);
  for (const draft of drafts) {
    const now = Date.now();
    n += 1;
    stamp = nextStamp(now, stamp, device);
    const entry: Entry = {
      id: uuidv7(),
      subject: draft.subject,
      kind: draft.kind,
      noted_at: new Date(now).toISOString(),
      stamp,
      device,
      n,
      prev: hash,
      seen: pulled.cursor,
      by: who.person.id,
      body: draft.body,
    };
    const text = JSON.stringify(entry);
    checkSize(text, draft.kind);
    hash = await sha256(text);
    entries.push(entry);
    rows.push({
      id: entry.id,
      subject: entry.subject,
      stamp,
      device,
      n,
      text,
      hash,
      waiting: n,
      seq: null,
      received_at: null,
    });
  }
  return { entries, rows, before: { pen, pulled }, after: { n, hash, stamp } };
}

/** Stamps sort as text. */
function later(a: string, b: string): string {
  if (a > b) return a;
  return b;
}

/** False when the pen or the cursor moved since `made` was prepared. */
async function save(db: Database, made: Prepared, aside: string | null): Promise<boolean> {
  const tx = writing(db, "facts", "refused");
  const facts = tx.objectStore("facts");
  const pen = ((await facts.get("pen")) as Pen | undefined) ?? FRESH_PEN;
  const pulled = ((await facts.get("pulled")) as Pulled | undefined) ?? NOTHING_PULLED;
  const { before } = made;
  if (pen.n !== before.pen.n || pen.hash !== before.pen.hash || pulled.stamp !== before.pulled.stamp) {
    await tx.done;
    return false;
  }
  // Looked at before anything is put: nothing may be written in place of one that is no longer refused.
  if (aside !== null && !(await putAside(tx, aside, made.entries[0]?.id))) {
    await tx.done;
    throw new NotRefused();
  }
  const entries = tx.objectStore("entries");
  try {
    // Async, so that a put that throws at once leaves none of the others unheard.
    const puts: Promise<unknown>[] = made.rows.map(async (row) => entries.add(row));
    puts.push(facts.put(made.after, "pen"), touch(tx, made.rows));
    await Promise.all([...puts, tx.done]);
  } catch (error) {
    // A refused put may leave the transaction open, and it would be committed with what was put before.
    abandon(tx);
    throw error;
  }
  return true;
}

function abandon(tx: Writing): void {
  tx.done.catch(() => {});
  try {
    tx.abort();
  } catch {
    // It is over already, by the same failure.
  }
}

/** The entries of a subject in the order of the fold. */
async function entries(subject: string): Promise<Kept[]> {
  const db = await database();
  return inOrder(await db.getAllFromIndex("entries", "subject", subject));
}

/** The subjects that begin with `prefix` ("bike/", "event/"), sorted. */
async function subjects(prefix: string): Promise<string[]> {
  const db = await database();
  const found: string[] = [];
  const range = IDBKeyRange.bound(prefix, `${prefix}\uffff`);
  let cursor = await db.transaction("entries").store.index("subject").openKeyCursor(range, "nextunique");
  while (cursor !== null) {
    found.push(cursor.key);
    cursor = await cursor.continue();
  }
  return found;
}

/** As many rows are read at a time as do not hold up a touch. */
const AT_A_TIME = 250;

/** The subjects that begin with `prefix` and have an entry in whose text `id` stands. */
async function naming(id: string, prefix: string): Promise<string[]> {
  const db = await database();
  const found = new Set<string>();
  let after = "";
  for (;;) {
    const rows = await db.getAll("entries", IDBKeyRange.lowerBound(after, true), AT_A_TIME);
    for (const row of rows) {
      if (row.subject.startsWith(prefix) && row.text.includes(id)) found.add(row.subject);
    }
    const last = rows.at(-1);
    if (last === undefined) return [...found].sort();
    after = last.id;
  }
}

/** Own entries that no receipt covers yet, in order of n; at most `most`. */
async function unsent(most?: number): Promise<Kept[]> {
  const db = await database();
  const rows = await db.getAllFromIndex("entries", "waiting", null, most);
  return rows.map(({ waiting: _waiting, hash: _hash, dismissed: _dismissed, ...kept }) => kept);
}

/**
 * Take a refused entry out of this phone's picture: somebody has dealt with it, by `mendedBy` when it was written anew. Its bytes
 * stay here as the chain's link, with what was the matter, and on the server in quarantine. False when it is not among the refused.
 */
async function putAside(tx: Writing, id: string, mendedBy?: string): Promise<boolean> {
  const refused = tx.objectStore("refused");
  const why = await refused.get(id);
  if (why === undefined || why.dealt !== undefined) return false;
  await refused.put({ ...why, dealt: mendedBy ?? "" });
  const row = await tx.objectStore("entries").get(id);
  if (row !== undefined) {
    await tx.objectStore("entries").put({ ...row, dismissed: true });
    await touch(tx, [row]);
  }
  return true;
}

/** Give a refused entry up. */
async function dismiss(id: string): Promise<void> {
  const db = await database();
  const tx = writing(db, "refused");
  await putAside(tx, id);
  await tx.done;
  tellChanged();
}

/**
 * Write a refused entry anew with another body. The new one names the refused one, which is put aside in the same transaction.
 * Works without signal. Throws NotRefused, and what `write` throws.
 */
async function mend(refused: Entry, body: Record<string, unknown>): Promise<Entry[]> {
  const { id, subject, kind } = refused;
  return append({ subject, kind, body: { ...body, instead_of: id } }, id);
}

export const record = { write, writeGroups, entries, subjects, naming, unsent, dismiss, mend };
