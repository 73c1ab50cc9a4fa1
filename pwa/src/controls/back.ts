/**
 * The phone's Back closes what lies uppermost, and only then leaves the page: an open sheet has an entry of its own in the history,
 * at the same address, so the router sees nothing of it.
 */

import { useLayoutEffect, useRef } from "preact/hooks";

interface Open {
  close: () => void;
  /** Its entry is gone already: it was Back that closed it. */
  gone: boolean;
}

const open: Open[] = [];
/** Entries being taken back by the app itself; each is told as any Back would be. */
let popping: (() => void)[] = [];

function isSheet(): boolean {
  return (history.state as { sheet?: true } | null)?.sheet === true;
}

function pop(): void {
  const done = () => {
    clearTimeout(late);
    popping = popping.filter((one) => one !== done);
  };
  // A browser that keeps no such entry says nothing.
  const late = setTimeout(done, 500);
  popping.push(done);
  history.back();
}

addEventListener("popstate", () => {
  const [own] = popping;
  if (own !== undefined) {
    own();
    return;
  }
  const top = open.findLast((one) => !one.gone);
  if (top !== undefined) {
    top.gone = true;
    top.close();
  } else if (isSheet()) {
    // The entry of a sheet from which a link led on.
    pop();
  }
});

// Opened anew with a sheet over it: the sheet is gone.
if (isSheet()) pop();

export function useBack(close: () => void): void {
  const latest = useRef(close);
  latest.current = close;
  useLayoutEffect(() => {
    const one: Open = { close: () => latest.current(), gone: false };
    open.push(one);
    history.pushState({ sheet: true }, "");
    return () => {
      open.splice(open.indexOf(one), 1);
      // Where a link led on from the sheet, Back would lead away from there.
      if (!one.gone && isSheet()) pop();
    };
  }, []);
}

/** Once no entry is being taken back: what changes the address waits for it. */
export async function settled(): Promise<void> {
  while (popping.length > 0) await new Promise((done) => setTimeout(done, 5));
}

/** Closes a sheet whose page is left at once: only then does what replaces the page's address replace the right one. */
export async function closed(close: () => void): Promise<void> {
  close();
  await new Promise((done) => setTimeout(done));
  await settled();
}
