/** Telling every open tab that something kept has changed. */

import { signal } from "@preact/signals-core";

/** Goes up on any change of what is kept, here or in another tab. */
export const changed = signal(0);

const channel = "BroadcastChannel" in globalThis ? new BroadcastChannel("pinchbolt-changed") : null;

/** `written` is how many entries were just written in this tab. */
type Heard = (written: number) => void;

const listeners = new Set<Heard>();

function bump(written: number): void {
  changed.value += 1;
  for (const heard of listeners) heard(written);
}

channel?.addEventListener("message", () => bump(0));

/** Call after the change is durably saved. */
export function tellChanged(written = 0): void {
  bump(written);
  channel?.postMessage(null);
}

/** Unlike an effect, also fires when nobody reads the signal. */
export function onChanged(heard: Heard): () => void {
  listeners.add(heard);
  return () => listeners.delete(heard);
}
