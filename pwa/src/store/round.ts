/** One round of sync: send, then fetch. Runs in a page or in the service worker, never in two places at once. */

import { withLock } from "./locks";
import { pull } from "./pull";
import { push } from "./push";
import type { Told } from "./wire";

/**
 * Send and fetch everything there is. Throws WireProblem or Stuck; what was done until then stays done.
 * A queue that cannot be sent still lets the others' entries come in.
 */
export function round(hello: boolean, progress: (told: Told<unknown>) => void): Promise<void> {
  return withLock("pinchbolt-sync", async () => {
    let stuck: unknown = null;
    try {
      await push(hello, progress);
    } catch (problem) {
      if (!(problem instanceof Error && problem.name === "Stuck")) throw problem;
      stuck = problem;
    }
    await pull(progress);
    if (stuck !== null) throw stuck;
    // A pull may have found a server that lost entries; what now waits again goes at once.
    await push(false, progress);
  });
}
