/** Shut out of the workshop: what is not sent stays here, what was fetched of the workshop's record goes. */

import { tellChanged } from "./changes";
import { database, fact, type Pulled, type Row, setFact, writing } from "./database";
import { NOTHING_PULLED, refreshPeople } from "./record";
import { touch } from "./snapshots";

/** Shut out, or let in again. It is kept, so that a phone opened without a signal says it too. */
export async function nowShutOut(out: boolean): Promise<void> {
  if (((await fact("shutOut")) ?? false) === out) return;
  await setFact("shutOut", out);
  await refreshPeople();
}

/**
 * Drop the record kept on this phone but what waits to be sent, what was refused, and the one own entry the next would chain
 * to (paired again, the phone shows it to the server as where its chain stands). Who the phone was let in as stays, to say it.
 */
export async function dropRecord(): Promise<void> {
  const db = await database();
  const tx = writing(db, "refused", "facts");
  const entries = tx.objectStore("entries");
  const facts = tx.objectStore("facts");
  const device = (await facts.get("device")) as string | undefined;
  const refused = new Set(await tx.objectStore("refused").getAllKeys());
  const kept: Row[] = [];
  let link: string | null = null;
  if (device !== undefined) {
    let own = await entries.index("own").openCursor(IDBKeyRange.bound([device, 0], [device, Infinity]), "prev");
    while (own !== null && own.value.waiting !== undefined) own = await own.continue();
    link = own?.value.id ?? null;
  }
  let dropped = false;
  let cursor = await entries.openCursor();
  while (cursor !== null) {
    const row = cursor.value;
    if (row.waiting !== undefined || refused.has(row.id) || row.id === link) kept.push(row);
    else {
      await cursor.delete();
      dropped = true;
    }
    cursor = await cursor.continue();
  }
  const pulled = ((await facts.get("pulled")) as Pulled | undefined) ?? NOTHING_PULLED;
  dropped ||= pulled.cursor > 0;
  if (dropped) {
    await tx.objectStore("folds").clear();
    await tx.objectStore("lines").clear();
    await touch(tx, kept);
    await facts.delete("people");
    // The clock goes on from where it was.
    await facts.put({ ...pulled, cursor: 0 }, "pulled");
  }
  await tx.done;
  if (!dropped) return;
  await refreshPeople();
  tellChanged();
}
