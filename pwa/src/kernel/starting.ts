/** The worker begun as soon as the page is there, before the rest of the program is: see `early.ts`. */

import { scriptAddress } from "../trusted";
import workerAddress from "./worker.ts?worker&url";

export { workerAddress };

let early: { worker: Worker; told: MessageEvent[]; failed: boolean } | null = null;

function newWorker(): Worker {
  return new Worker(scriptAddress(workerAddress), { type: "module", name: "kernel" });
}

export function beginEarly(): void {
  const begun = { worker: newWorker(), told: [] as MessageEvent[], failed: false };
  begun.worker.onmessage = (event) => begun.told.push(event);
  begun.worker.onerror = (event) => {
    event.preventDefault();
    begun.failed = true;
  };
  early = begun;
}

/** The one begun early, once; else a new one. What the early one has told already is in `told`. */
export function takeWorker(): { worker: Worker; told: MessageEvent[] } {
  const begun = early;
  early = null;
  if (begun === null || begun.failed) return { worker: newWorker(), told: [] };
  return begun;
}
