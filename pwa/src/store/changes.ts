/** Telling every open tab that something kept has changed. */

import { signal } from "@preact/signals";

/** Goes up on any change of what is kept, here or in another tab. */
export const changed = signal(0);

const channel = "BroadcastChannel" in globalThis ? new BroadcastChannel("pinchbolt-changed") : null;

const listeners = new Set<() => void>();

function bump(): void {
  changed.value += 1;
  for (const heard of listeners) heard();
}

channel?.addEventListener("message", bump);

/** Call after the change is durably saved. */
export function tellChanged(): void {
  bump();
  channel?.postMessage(null);
}

/** Unlike an effect, also fires when nobody reads the signal. */
export function onChanged(heard: () => void): () => void {
  listeners.add(heard);
  return () => listeners.delete(heard);
}
