/**
 * What the phone itself shows while the app is open: a badge of what waits and what stops a ride, and notices of stops, when asked
 * for. Nothing comes from outside: no push service is spoken to.
 */

import { effect, signal } from "@preact/signals";
import { lineOf, listBikes } from "./folding";
import type { BikeLine } from "./kernel/use-types";
import { said } from "./languages/spoken";
import { w } from "./screens/bike/use-words";
import { onChanged } from "./store/changes";
import { keep } from "./store/drafts";
import { syncState } from "./store/sync";

export const noticesPossible = "Notification" in globalThis;

export const noticesOn = keep.kept("notices", false);

/** Bikes that must not be ridden, by subject, with what stops each. */
const stops = signal<Map<string, { bike: string; what: string }>>(new Map());

/** Ask the phone, from a touch of the person. */
export async function setNotices(on: boolean): Promise<"on" | "off" | "denied"> {
  if (!on) {
    noticesOn.value = false;
    return "off";
  }
  const answer = Notification.permission === "granted" ? "granted" : await Notification.requestPermission();
  noticesOn.value = answer === "granted";
  return noticesOn.value ? "on" : "denied";
}

function stopOf(line: BikeLine): { bike: string; what: string } | null {
  if (line.summary.standing.verdict !== "not-fit") return null;
  const reason = line.summary.standing.reasons.find((one) => one.level === "stop");
  return { bike: line.summary.name ?? "", what: said(reason?.text ?? line.summary.standing.words) };
}

/** So many bikes are folded anew for a look; where more have changed at once, their lists come to them. */
const FOLDED_HERE = 12;

async function look(): Promise<void> {
  looks += 1;
  const mine = looks;
  const { made, bikes } = await listBikes();
  const found = new Map<string, { bike: string; what: string }>();
  let folded = 0;
  for (const { subject, line, last } of bikes) {
    let now = line;
    if (now === null && last !== null && folded < FOLDED_HERE) {
      now = await lineOf(subject, made);
      folded += 1;
    }
    // One that is still to be folded keeps what it was told for until then.
    const stop = now !== null ? stopOf(now) : last !== null ? (stops.peek().get(subject) ?? null) : null;
    if (stop !== null) found.set(subject, stop);
  }
  // The record changed meanwhile and a later look is under way.
  if (mine !== looks) return;
  const news = [...found].filter(([subject, stop]) => stops.peek().get(subject)?.what !== stop.what);
  const first = !looked;
  looked = true;
  stops.value = found;
  // What was known when the app was opened is on its sheets already.
  if (!first) for (const [subject, stop] of news) tell(subject, stop);
}

let looks = 0;

let looked = false;

function tell(subject: string, stop: { bike: string; what: string }): void {
  if (!noticesOn.value || !noticesPossible || Notification.permission !== "granted") return;
  const text = w.due.notice(stop.bike, stop.what);
  const options = { tag: subject, body: stop.what };
  // On a phone only the service worker may show one.
  void navigator.serviceWorker?.ready
    .then((registration) => registration.showNotification(stop.bike, options))
    .catch(() => {
      try {
        new Notification(stop.bike, options);
      } catch {
        console.info(text);
      }
    });
}

/** Begin to watch. Call once, after the first paint. */
export function startNotices(): void {
  let waiting: ReturnType<typeof setTimeout> | undefined;
  const soon = () => {
    clearTimeout(waiting);
    // The sheet that is open folds what changed first; this mostly reads what it came to.
    waiting = setTimeout(() => void look().catch(() => undefined), 1500);
  };
  soon();
  onChanged(soon);
  effect(() => {
    const { unsent } = syncState.value;
    if (unsent === null) return;
    const count = unsent + stops.value.size;
    if (count > 0) void navigator.setAppBadge?.(count).catch(() => undefined);
    else void navigator.clearAppBadge?.().catch(() => undefined);
  });
}
