/** What the program asks of the phone itself: stay awake, keep the storage, buzz, take a new version. */

import { signal } from "@preact/signals";
import { language } from "./languages/chosen";
import { scriptAddress } from "./trusted";

export const version = __VERSION__;

/** True when a newer version is loaded and waits for the person to take it. Never taken under their hands. */
export const updateReady = signal(false);

/** True while the browser offers to put the page on the home screen. */
export const installOffered = signal(false);

/** True when it runs from the home screen. */
export const installed = signal(false);

/** True when the program is kept on this phone and opens without a network. */
export const offlineReady = signal(false);

export interface Storage {
  /** Whether the browser promised not to clear it by itself; null when it cannot say. */
  persisted: boolean | null;
  /** Bytes. */
  used: number | null;
  room: number | null;
}

export const storage = signal<Storage>({ persisted: null, used: null, room: null });

let registration: ServiceWorkerRegistration | null = null;
let reloading = false;

/** Register the service worker and watch for new versions. Call once, after the first paint. */
export async function startServiceWorker(): Promise<void> {
  if (!("serviceWorker" in navigator) || import.meta.env.DEV) return;
  const before = navigator.serviceWorker.controller;
  navigator.serviceWorker.addEventListener("controllerchange", () => {
    // In the tab that asked, start anew; in any other the new version is only offered.
    if (reloading) location.reload();
    else if (before !== null) updateReady.value = true;
  });
  try {
    registration = await navigator.serviceWorker.register(scriptAddress("/sw.js"), { scope: "/", updateViaCache: "none" });
  } catch {
    return; // Not a secure address, or forbidden: works with a network only, and `offlineReady` stays false.
  }
  watch(registration);
  // Another tab took a new version, and a screen of this one that was not yet loaded is gone with the old: the way there is anew.
  addEventListener("vite:preloadError", (event) => {
    if (!updateReady.value) return;
    event.preventDefault();
    location.reload();
  });
  const ready = await navigator.serviceWorker.ready;
  ready.active?.postMessage({ speaks: language });
  offlineReady.value = true;
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") void registration?.update().catch(() => undefined);
  });
}

function watch(registered: ServiceWorkerRegistration): void {
  const look = () => {
    if (registered.waiting !== null && registered.active !== null) updateReady.value = true;
  };
  look();
  registered.addEventListener("updatefound", () => registered.installing?.addEventListener("statechange", look));
}

/** Take the new version: the page loads anew. Only from a tap of the person. */
export function applyUpdate(): void {
  reloading = true;
  if (registration?.waiting) registration.waiting.postMessage("take-over");
  else location.reload();
}

let lock: WakeLockSentinel | null = null;
let wanted = 0;

async function holdAwake(): Promise<void> {
  if (wanted === 0 || lock !== null || document.visibilityState !== "visible") return;
  try {
    lock = await navigator.wakeLock.request("screen");
    lock.addEventListener("release", () => {
      lock = null;
    });
    // It may have been given back while the browser thought about it.
    if (wanted === 0) await lock?.release();
  } catch {
    // Low battery, or not there: the screen dims as it always does.
  }
}

/** Keep the screen on until the returned function is called, as during a check. */
export function keepAwake(): () => void {
  wanted += 1;
  void holdAwake();
  let over = false;
  return () => {
    if (over) return;
    over = true;
    wanted -= 1;
    if (wanted === 0) void lock?.release();
  };
}

/** A short buzz, where the phone can. */
export function buzz(pattern: number | number[] = 12): void {
  navigator.vibrate?.(pattern);
}

/** Look how full the storage is and whether it is safe from being cleared. */
export async function lookAtStorage(): Promise<void> {
  const persisted = (await navigator.storage?.persisted?.()) ?? null;
  const estimate = await navigator.storage?.estimate?.();
  storage.value = { persisted, used: estimate?.usage ?? null, room: estimate?.quota ?? null };
}

/** Ask the browser to keep the storage for good. True when it promised. */
export async function askToPersist(): Promise<boolean> {
  const promised = (await navigator.storage?.persist?.()) ?? false;
  await lookAtStorage();
  return promised;
}

/** Above this share of its room a phone is told early, while there is still time to send and to clear up. */
const TIGHT = 0.8;

/** Whether little room is left. */
export function isTight({ used, room }: Storage): boolean {
  return used !== null && room !== null && used > room * TIGHT;
}

let asked = false;

/**
 * Something of the person's own is kept nowhere but here: the moment to ask the browser not to clear it, once a visit, and to look
 * how much room there is.
 */
export async function guardUnsent(): Promise<void> {
  await lookAtStorage();
  if (storage.value.persisted !== false || asked) return;
  asked = true;
  await askToPersist();
}

interface InstallPrompt extends Event {
  prompt(): Promise<void>;
  readonly userChoice: Promise<{ outcome: "accepted" | "dismissed" }>;
}

let offer: InstallPrompt | null = null;

/** Let the browser ask whether to put the page on the home screen. True when the person agreed. */
export async function install(): Promise<boolean> {
  if (offer === null) return false;
  const asked = offer;
  offer = null;
  installOffered.value = false;
  await asked.prompt();
  return (await asked.userChoice).outcome === "accepted";
}

/** Start listening to the phone. Call once. */
export function startDevice(): void {
  const standalone = matchMedia("(display-mode: standalone)");
  installed.value = standalone.matches;
  standalone.addEventListener("change", () => {
    installed.value = standalone.matches;
  });
  addEventListener("beforeinstallprompt", (event) => {
    event.preventDefault();
    offer = event as InstallPrompt;
    installOffered.value = true;
  });
  addEventListener("appinstalled", () => {
    installOffered.value = false;
    installed.value = true;
  });
  // The browser lets go of the screen whenever the page is hidden.
  document.addEventListener("visibilitychange", () => void holdAwake());
  void lookAtStorage();
}
