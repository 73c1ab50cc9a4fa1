/**
 * The phone's Back closes what lies uppermost, and only then leaves the page: each open sheet has an entry of its own in the history,
 * at the same address, so the router sees nothing of it. How many lie there stands in the entry.
 */

import { useLayoutEffect, useRef } from "preact/hooks";

interface Open {
  close: () => void;
  /** It has its entry. */
  entered: boolean;
}

let open: Open[] = [];
/** Entries are being taken back by the app itself. */
let leaving = false;
let late: ReturnType<typeof setTimeout> | undefined;

function depth(): number {
  return (history.state as { sheets?: number } | null)?.sheets ?? 0;
}

/** As many entries as there are sheets. Sheets opened meanwhile wait for those that are being taken back. */
function level(): void {
  if (leaving) return;
  const over = depth() - open.length;
  if (over > 0) {
    leaving = true;
    // A browser that keeps no such entry says nothing.
    late = setTimeout(arrived, 2000);
    history.go(-over);
    return;
  }
  for (let at = depth() + 1; at <= open.length; at++) history.pushState({ sheets: at }, "");
  for (const one of open) one.entered = true;
}

function arrived(): void {
  clearTimeout(late);
  leaving = false;
  level();
}

addEventListener("popstate", () => {
  if (!leaving) {
    const shut = open.filter((one) => one.entered).slice(depth());
    open = open.filter((one) => !shut.includes(one));
    for (const one of shut.reverse()) one.close();
  }
  // Also out of the entry of a sheet from which a link led on.
  arrived();
});

// Opened anew with a sheet over it: the sheet is gone.
level();

export function useBack(close: () => void): void {
  const latest = useRef(close);
  latest.current = close;
  useLayoutEffect(() => {
    const one: Open = { close: () => latest.current(), entered: false };
    open.push(one);
    queueMicrotask(level);
    return () => {
      open = open.filter((other) => other !== one);
      queueMicrotask(level);
    };
  }, []);
}

/** Once no entry is being taken back: what changes the address waits for it. */
export async function settled(): Promise<void> {
  while (leaving) await new Promise((done) => setTimeout(done, 5));
}

/** Closes a sheet whose page is left at once: only then does what replaces the page's address replace the right one. */
export async function closed(close: () => void): Promise<void> {
  close();
  await new Promise((done) => setTimeout(done));
  await settled();
}
