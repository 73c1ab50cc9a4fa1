/** When to sync, and what to say about it. */

import { signal } from "@preact/signals-core";
import { MOST_OUT_OF_REACH, waitBefore } from "./backoff";
import { onChanged } from "./changes";
import { database, fact, type RefusedRow } from "./database";
import { identity, opened } from "./record";
import { round } from "./round";
import type { Entry, Refused, SyncState, SyncWord } from "./types";
import { type Told, WireProblem } from "./wire";
import { problems } from "./words";

const POLL = 60_000;
const CLOCK_LIMIT = 2 * 60_000;

export const syncState = signal<SyncState>({
  unsent: null,
  refused: [],
  dealtWith: [],
  state: "idle",
  said: "",
  lost: false,
  lastOk: null,
  clock: null,
  fetching: null,
});

/** How many entries wait, as far as they are counted. */
export const waiting = (): number => syncState.value.unsent ?? 0;

/** What one tab tells the others, so that all show the same. */
type Shared = Pick<SyncState, "state" | "said" | "lost" | "lastOk" | "clock" | "fetching">;
const channel = "BroadcastChannel" in globalThis ? new BroadcastChannel("pinchbolt-sync") : null;

function show(shared: Partial<Shared>): void {
  syncState.value = { ...syncState.value, ...shared };
  const { state, said, lost, lastOk, clock, fetching } = syncState.value;
  channel?.postMessage({ state, said, lost, lastOk, clock, fetching } satisfies Shared);
}

async function count(): Promise<void> {
  const db = await database();
  const unsent = await db.countFromIndex("entries", "waiting");
  const all = await db.getAll("refused");
  const refused = all.filter((row) => row.dealt === undefined).map(asRefused);
  const dealtWith = all.filter((row) => row.dealt !== undefined).map(asRefused);
  syncState.value = { ...syncState.value, unsent, refused, dealtWith };
}

function asRefused(row: RefusedRow): Refused {
  const mended = row.dealt !== undefined && row.dealt !== "";
  return { entry: JSON.parse(row.text) as Entry, errors: row.errors, mended };
}

let running: Promise<void> | null = null;
let next: Promise<void> | null = null;
let greeted = false;
let failures = 0;
// How often in a row the server's news broke off without a word.
let deaf = 0;
let timer: ReturnType<typeof setTimeout> | undefined;

/**
 * Sync now; resolves when a round that began after the call is over. Calls while one is under way share the round after it.
 * Never throws: see `syncState`.
 */
export function syncNow(): Promise<void> {
  if (running === null) {
    running = run().finally(() => {
      running = null;
    });
    return running;
  }
  next ??= running.then(() => {
    next = null;
    return syncNow();
  });
  return next;
}

async function run(): Promise<void> {
  clearTimeout(timer);
  await opened;
  if (identity.value === null) return;
  show({ state: "sending", said: "" });
  try {
    await round(!greeted, heard);
    greeted = true;
    failures = 0;
    await count();
    show({ state: "idle", said: "", lost: false, fetching: null });
    listen();
    plan(POLL);
  } catch (problem) {
    failures += 1;
    await count().catch(() => undefined);
    const [state, said] = meaning(problem);
    show({ state, said, lost: state === "offline", fetching: null });
    // Signed out, only pairing helps, but a look now and then finds out whether somebody let the phone in again.
    const asked = problem instanceof WireProblem ? problem.wait : null;
    // Who looks at a sheet that is not sent yet should not wait for minutes beside a network that is there again.
    const seen = state === "offline" && document.visibilityState === "visible" && waiting() > 0;
    plan(waitBefore(state === "signed-out" ? 12 : failures, asked, seen ? MOST_OUT_OF_REACH : undefined));
  }
}

function heard(told: Told<unknown>, fetching: SyncState["fetching"] = null): void {
  const { clockAhead } = told;
  let clock: string | null = syncState.value.clock;
  if (clockAhead !== null) clock = Math.abs(clockAhead) > CLOCK_LIMIT ? clockSaid(clockAhead) : null;
  show({ lost: false, lastOk: new Date().toISOString(), clock, fetching });
}

function clockSaid(ahead: number): string {
  const minutes = Math.round(Math.abs(ahead) / 60_000);
  const much = minutes >= 120 ? `${Math.round(minutes / 60)} hours` : `${minutes} minutes`;
  return `This phone's clock is ${much} ${ahead > 0 ? "behind" : "ahead of"} the server's. The order of entries is kept all the same.`;
}

function meaning(problem: unknown): [SyncWord, string] {
  if (problem instanceof WireProblem) {
    switch (problem.meaning) {
      case "unreachable":
      case "stranger":
        return ["offline", problem.said];
      case "signed-out":
      case "revoked":
        return ["signed-out", problem.said];
      case "slow-down":
      case "server-trouble":
      case "garbled":
        return ["waiting", `${problem.said} It is tried again by itself.`];
      default:
        return ["trouble", problem.said];
    }
  }
  return ["trouble", problem instanceof Error ? problem.message : String(problem)];
}

function plan(ms: number): void {
  clearTimeout(timer);
  timer = setTimeout(() => {
    // A hidden page polls no more unless something waits; it wakes when it is shown.
    if (document.visibilityState === "visible" || waiting() > 0) void syncNow();
  }, ms);
}

/** Start syncing for as long as the page lives. Call once. */
export function startSync(): void {
  listening = true;
  channel?.addEventListener("message", (event: MessageEvent<Shared>) => {
    syncState.value = { ...syncState.value, ...event.data };
  });
  onChanged((written) => {
    const before = waiting();
    // At once, so that nothing just written stands beside "all sent" until it is counted.
    if (syncState.value.unsent !== null) syncState.value = { ...syncState.value, unsent: before + written };
    void count().then(() => {
      if (waiting() > before) {
        void askBackground();
        void syncNow();
      }
    });
  });
  addEventListener("online", afresh);
  addEventListener("offline", () => show({ state: "offline", said: problems.noNetwork, lost: true }));
  addEventListener("pageshow", afresh);
  document.addEventListener("visibilitychange", wake);
  navigator.serviceWorker?.addEventListener("message", (event: MessageEvent<unknown>) => {
    if (event.data === "sync") void syncNow();
  });
  void count();
  wake();
}

let live: EventSource | null = null;
let listening = false;

function wake(): void {
  if (document.visibilityState !== "visible") {
    live?.close();
    live = null;
    return;
  }
  afresh();
}

/** Now there is a reason to hope. A network just joined often fails once more: that must not cost the wait of a long outage. */
function afresh(): void {
  failures = 0;
  void syncNow();
}

/** While the page is seen, the server says when there is something new. Where that fails the timer stands in. */
function listen(): void {
  if (!listening || live !== null || identity.value === null || document.visibilityState !== "visible") return;
  if (syncState.value.state !== "idle") return;
  live = new EventSource("/api/live");
  live.addEventListener("seq", (event) => {
    deaf = 0;
    void news(Number(event.data));
  });
  // Opened again after the next round that succeeds; that one comes soon, for what happened meanwhile nobody told.
  live.onerror = () => {
    live?.close();
    live = null;
    deaf += 1;
    if (running === null && failures === 0) plan(Math.min(POLL, waitBefore(deaf, null)));
  };
}

async function news(seq: number): Promise<void> {
  const cursor = (await fact("pulled"))?.cursor ?? 0;
  if (!(seq <= cursor)) await syncNow();
}

async function askBackground(): Promise<void> {
  try {
    const registration = await navigator.serviceWorker?.getRegistration();
    await registration?.sync?.register("pinchbolt-queue");
  } catch {
    // Not every browser has it, and some forbid it: the page's own timer does the job.
  }
}

/** The queue as JSON Lines, each entry's exact text, oldest first. The server takes the file in with the same rules. */
export async function queueFile(): Promise<File> {
  const db = await database();
  const rows = await db.getAllFromIndex("entries", "waiting");
  const refused = (await db.getAll("refused")).filter(
    (one) => one.dealt === undefined && !rows.some((row) => row.id === one.id),
  );
  const lines = [...rows, ...refused].sort((a, b) => a.n - b.n).map((row) => `${row.text}\n`);
  const name = `pinchbolt-queue-${new Date().toISOString().slice(0, 10)}.jsonl`;
  return new File(lines, name, { type: "application/jsonl" });
}

/** Hand the queue over as a file: shared where the phone can, else saved. False when the person called it off. */
export async function saveQueue(): Promise<boolean> {
  const file = await queueFile();
  if (navigator.canShare?.({ files: [file] })) {
    try {
      await navigator.share({ files: [file], title: "Pinchbolt: entries not yet sent" });
      return true;
    } catch (problem) {
      if (problem instanceof DOMException && problem.name === "AbortError") return false;
    }
  }
  const link = document.createElement("a");
  link.href = URL.createObjectURL(file);
  link.download = file.name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
  return true;
}
