/**
 * The store without a screen, for the state machine of sync: the app's own queue, opened once for each simulated phone.
 * Built by vite/queue.config.ts; the world around it (network, clock, databases) is tests/sync/world.js.
 */

import { database, type Facts, setFact } from "../src/store/database";
import { pull } from "../src/store/pull";
import { push } from "../src/store/push";
import { opened, record, refreshPeople } from "../src/store/record";
import { queueFile, syncNow, syncState } from "../src/store/sync";
import type { Draft, Identity } from "../src/store/types";

const quietly = (): void => undefined;

/** Whose phone this is, as pairing leaves it. */
export async function belongs(identity: Identity): Promise<void> {
  await setFact("device", identity.device.id as Facts["device"]);
  await setFact("identity", identity);
  await refreshPeople();
}

export const ready = (): Promise<void> => opened;

/** The exact texts of what was written. */
export async function write(drafts: Draft[]): Promise<string[]> {
  return (await record.write(drafts)).map((entry) => JSON.stringify(entry));
}

export const send = (): Promise<void> => push(false, quietly);

export const fetchOthers = (): Promise<void> => pull(quietly);

/** A round as the app makes them, the first of a life with a hello; what it came to. */
export async function sync(): Promise<{ state: string; said: string; unsent: number | null }> {
  await syncNow();
  const { state, said, unsent } = syncState.value;
  return { state, said, unsent };
}

export const dismiss = record.dismiss;

/** The queue as the file that a person can save, a line an entry. */
export async function savedQueue(): Promise<string[]> {
  return (await (await queueFile()).text()).split("\n").filter((line) => line !== "");
}

/** Everything the phone keeps: all entries, and those that wait for somebody. */
export async function kept(): Promise<unknown> {
  const db = await database();
  return { rows: await db.getAll("entries"), refused: await db.getAll("refused"), pulled: await db.get("facts", "pulled") };
}

export async function close(): Promise<void> {
  (await database()).close();
}
