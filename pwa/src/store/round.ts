/** One round of sync: send, then fetch. Runs in a page or in the service worker, never in two places at once. */

import { database } from "./database";
import { dropRecord, nowShutOut } from "./leaving";
import { withLock } from "./locks";
import { type Fetching, pull } from "./pull";
import { push } from "./push";
import { enrol } from "./signing";
import { type Told, tellUnsent, WireProblem } from "./wire";

/** Hears of each answer, and of how far a long fetching has come. */
export type Progress = (told: Told<unknown>, fetching?: Fetching | null) => void;

/**
 * Send and fetch everything there is. Throws WireProblem or Stuck; what was done until then stays done.
 * A queue that cannot be sent still lets the others' entries come in.
 */
export function round(hello: boolean, progress: Progress): Promise<void> {
  return withLock("pinchbolt-sync", async () => {
    try {
      await sendAndFetch(hello, progress);
      await nowShutOut(false);
    } catch (problem) {
      if (problem instanceof WireProblem && problem.meaning === "revoked") {
        await nowShutOut(true);
        await dropRecord();
      }
      throw problem;
    }
  });
}

async function sendAndFetch(hello: boolean, progress: Progress): Promise<void> {
  await countUnsent();
  let stuck: unknown = null;
  if (hello) await enrol();
  try {
    await push(hello, progress);
  } catch (problem) {
    if (!(problem instanceof Error && problem.name === "Stuck")) throw problem;
    stuck = problem;
  }
  await countUnsent();
  await pull(progress);
  if (stuck !== null) throw stuck;
  // A pull may have found a server that lost entries; what now waits again goes at once.
  await push(false, progress);
}

async function countUnsent(): Promise<void> {
  tellUnsent(await (await database()).countFromIndex("entries", "waiting"));
}
